"""Which script files a page runs, so that it can name them all at once.

A browser learns of a module's imports only when it has read the module: seven rounds through the service
worker before a step can be filled in. Named in the head of the page, all are under way in the first.
"""

import re
from collections.abc import Sequence
from functools import cache
from pathlib import Path
from posixpath import dirname, join, normpath
from typing import Any

from flask import current_app

from webapp.language import ENGLISH, language

IMPORTED = re.compile(r"""^(?:import|export)\b(?!\()[^;"']*["'](\.[^"']+\.js)["'];?$""", re.MULTILINE)
ON_EVERY_PAGE = ("start.js", "parts/saved-status.js", "parts/update-notice.js")


def needs_of(step: dict[str, Any]) -> list[str]:
    """The modules in ``static/parts`` that a step's page starts because of what it has, and others do not."""
    entries = step["entries"]
    found = {entry["kind"] for entry in entries} & {"drawing", "photo", "series"}
    if any(entry.get("scan") for entry in entries):
        found.add("scan-entry")
    # What a time may run between, and minutes that are typed.
    if any(entry["kind"] == "instant" or entry["unit"] == "min" for entry in entries):
        found.add("timer")
    return sorted(found)


def modules_of(part: str, needs: Sequence[str] = ()) -> tuple[str, ...]:
    """Paths below the static folder of what runs at once on a page with ``data-module=part``."""
    name = language()
    words = () if name == ENGLISH else (f"generated/words.{name}.js", f"generated/messages.{name}.js")
    return reached(
        str(current_app.static_folder),
        (*ON_EVERY_PAGE, *words, *(f"parts/{name}.js" for name in (part, *needs))),
    )


@cache
def reached(static: str, entries: tuple[str, ...]) -> tuple[str, ...]:
    """The entries and everything that they import, directly or not; not what is imported later."""
    found = dict.fromkeys(entries)
    waiting = list(entries)
    while waiting:
        name = waiting.pop(0)
        text = Path(static, name).read_text(encoding="utf-8")
        news = [normpath(join(dirname(name), other)) for other in IMPORTED.findall(text)]
        fresh = [one for one in dict.fromkeys(news) if one not in found and Path(static, one).is_file()]
        found |= dict.fromkeys(fresh)
        waiting += fresh
    return tuple(found)
