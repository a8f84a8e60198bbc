"""What every page owes to its readers: no finding of axe, no scrolling sideways, controls that a thumb hits.

Pages take turns: one is looked at in English with light colours, the next in German with dark ones.
``AXE_ALL=1`` looks at every page in both languages with both.
"""

import os
from collections.abc import Iterable, Iterator
from itertools import cycle
from pathlib import Path
from typing import Any

from playwright.sync_api import Page

AXE = Path(__file__).parent / "node" / "node_modules" / "axe-core" / "axe.min.js"
RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
OPTIONS = {"runOnly": {"type": "tag", "values": RULES}, "resultTypes": ["violations"]}
TURNS = [("en", "light"), ("de", "dark")]
ALL = [("en", "light"), ("de", "dark"), ("de", "light"), ("en", "dark")]
SMALLEST_TARGET = 48
"""Pixels: WCAG 2.2, 2.5.8 asks for 24, the platforms' guidelines for 44 to 48."""

RUN = "(options) => axe.run(document, options).then(({ violations }) => violations)"
# A link within a sentence is as high as its line (2.5.8 excepts it); one that stands alone is a target.
SMALL = """(smallest) => {
  const inSentence = (one) => getComputedStyle(one).display === "inline"
    && one.closest("p, li, td, th, dd, span, div").textContent.trim() !== one.textContent.trim();
  const isHit = (one) => one.matches("input[type=radio], input[type=checkbox]") ? one.closest("label") : one;
  return [...document.querySelectorAll("a[href], button, select, textarea, input, summary")]
    .filter((one) => one.checkVisibility() && one.type !== "hidden" && !one.matches(".skip"))
    .filter((one) => !inSentence(one))
    .map(isHit)
    .filter((one) => one.getBoundingClientRect().height < smallest - 0.5)
    .map((one) => `${one.tagName.toLowerCase()} ${one.textContent.trim().slice(0, 30)}`);
}"""


# Another page of the same site put in the place of this one. No script of it runs, so it is there at once.
PUT = """async (place) => {
  const answer = await fetch(place);
  const page = new DOMParser().parseFromString(await answer.text(), "text/html");
  const styles = [...page.head.querySelectorAll("link[rel=stylesheet]")];
  const loaded = styles.map((one) => new Promise((resolve) => one.addEventListener("load", resolve)));
  document.documentElement.lang = page.documentElement.lang;
  const rest = ["title", "meta[name=viewport]"].map((one) => page.head.querySelector(one));
  document.head.replaceChildren(...rest, ...styles);
  document.body.replaceWith(page.body);
  await Promise.all(loaded);
  return document.querySelector("[data-module]:not([data-module=error-summary])") !== null;
}"""


def in_turns(places: Iterable[str]) -> Iterator[tuple[str, str, str]]:
    """(address, language, scheme) of each look."""
    for place, turn in zip(places, cycle(TURNS), strict=False):
        for language, scheme in ALL if os.environ.get("AXE_ALL") else (turn,):
            yield f"{place}{'&' if '?' in place else '?'}lang={language}", language, scheme


def show(page: Page, place: str) -> None:
    """Put the page there, or open it where its scripts have something to show."""
    if page.url == "about:blank" or page.evaluate(PUT, place):
        page.goto(place)


def complaints(page: Page, scheme: str) -> list[Any]:
    """Everything that is wrong with the page that is open."""
    found: list[Any] = []
    page.emulate_media(color_scheme=scheme)
    if page.evaluate("document.documentElement.scrollWidth > innerWidth"):
        found.append("scrolls sideways")
    found += page.evaluate(SMALL, SMALLEST_TARGET)
    if not page.evaluate("typeof axe === 'object'"):
        page.evaluate(AXE.read_text() + "; 0")
    violations = page.evaluate(RUN, OPTIONS)
    return found + [(one["id"], [node["target"] for node in one["nodes"]]) for one in violations]
