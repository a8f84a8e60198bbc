"""The sentences behind the codes: one list for server, commands and phone (`checks/messages.toml`)."""

from __future__ import annotations

import json
import re
import tomllib
from collections.abc import Mapping
from decimal import ROUND_CEILING, Decimal
from pathlib import Path
from typing import Any

from checks.rounding import AGREED, EXACT, told
from checks.translation import Say, english
from checks.units import unit_label

_TABLE = tomllib.loads(Path(__file__).with_suffix(".toml").read_text(encoding="utf-8"))

VERDICTS: dict[str, dict[str, str]] = _TABLE["verdicts"]
STATES: dict[str, dict[str, str]] = _TABLE["states"]
SEVERITIES: dict[str, dict[str, str]] = _TABLE["severities"]
"""How bad a defect can be, the worst first."""
SENTENCES: dict[str, list[str]] = {
    code: [text] if isinstance(text, str) else text for code, text in _TABLE["sentences"].items()
}

NO_END = 1e15
"""The largest number that a formula takes: it stands for no end of a range."""

_PLACEHOLDER = re.compile(r"\{(\w+)\}")

_JAVASCRIPT_HEAD = """\
// Generated from checks/messages.toml and its catalogue: change these, then run `python -m checks.generate`.
"""

_JAVASCRIPT = """\
// Generated from checks/messages.toml by checks.generate: change that, then run `python -m checks.generate`.

import {{ decimal, phrase }} from "../language/phrase.js";
import {{ unitLabel }} from "./units.js";

export let VERDICTS = {verdicts};

export let STATES = {states};

export let SEVERITIES = {severities};

export let SENTENCES = {sentences};

/** Say all this in another language: `tables` is the module of it. */
export function speak(tables) {{
  ({{ VERDICTS, STATES, SEVERITIES, SENTENCES }} = tables);
}}

/**
 * What a code says: the first of its sentences whose placeholders are all known. An unknown code says itself.
 * @param {{string | {{code: string}}}} code a code, or a reason with its details
 * @param {{Object}} details
 * @returns {{string}}
 */
export function sentence(code, details = {{}}) {{
  if (typeof code !== "string") return sentence(code.code, {{ ...code, ...details }});
  for (const text of SENTENCES[code] ?? []) {{
    const names = [...text.matchAll(/\\{{(\\w+)\\}}/g)].map((found) => found[1]);
    if (names.every((name) => isKnown(details[name]))) {{
      const filled = text.replace(/\\{{(\\w+)\\}}/g, (_, name) => said(name, details[name], details.unit));
      return filled.replace(/ +(?=[ .,;:]|$)/g, "");
    }}
  }}
  return code.replaceAll("_", " ");
}}

/** Whether there is something to say; the largest number that a formula takes stands for no end. */
function isKnown(value) {{
  if (typeof value === "number") return Math.abs(value) < {largest};
  return value !== undefined && value !== null;
}}

function said(name, value, unit) {{
  if (name === "kind" || name === "wanted") return phrase(unitLabel(String(value)).replaceAll("_", " "));
  if (["unit", "units"].includes(name)) return [value].flat().map((one) => phrase(unitLabel(one))).join(", ");
  return shown(typeof value === "number" ? told(name, value, unit) : value);
}}

/** How the numbers of a verdict are shown: digits, and 1 for up or -1 for down. */
const AGREED = {agreed};

/** A number of a verdict as it is told; a day and what has another name stay as they are. */
export function told(name, value, unit) {{
  return Object.hasOwn(AGREED, name) && unit !== "date" ? rounded(value, ...AGREED[name]) : value;
}}

/** The value with so many significant digits, on the wanted side; what binary fractions add is no digit. */
function rounded(value, digits, side) {{
  const exact = Number(value.toPrecision({exact}));
  const near = Number(exact.toPrecision(digits));
  if (near === exact || near > exact === side > 0) return near;
  const place = Number(exact.toExponential().split("e")[1]) - digits + 1;
  return Number((near + Number(`${{side}}e${{place}}`)).toPrecision(digits));
}}

function shown(value) {{
  if (Array.isArray(value)) return value.map(shown).join(", ");
  return typeof value === "number" ? decimal(String(Number(value.toPrecision(6)))) : String(value);
}}
"""


def sentence(
    code: str | Mapping[str, Any], say: Say = english, number: Say = english, /, **details: Any
) -> str:
    """What a code says: the first of its sentences whose placeholders are all known.

    `code` may be a whole reason, `{"code": ..., ...details}`. A code without a sentence says itself.
    `say` gives the sentence in the reader's language, `number` a number as the reader writes it.
    """
    if not isinstance(code, str):
        details = {**code, **details}
        return sentence(details.pop("code"), say, number, **details)
    for text in SENTENCES.get(code, []):
        if all(_is_known(details.get(name)) for name in _PLACEHOLDER.findall(text)):
            filled = _PLACEHOLDER.sub(lambda found: _said(found[1], details, say, number), say(text))
            return re.sub(" +(?=[ .,;:]|$)", "", filled)
    return code.replace("_", " ")


def _said(name: str, details: Mapping[str, Any], say: Say, number: Say) -> str:
    """A detail in words: a kind of instrument without underscores, a unit as it is written for a reader."""
    value = details[name]
    if name in ("kind", "wanted"):
        return say(unit_label(str(value)).replace("_", " "))
    if name in ("unit", "units"):
        return ", ".join(say(unit_label(one)) for one in ([value] if isinstance(value, str) else value))
    if isinstance(value, int | float) and not isinstance(value, bool):
        value = told(name, value, details.get("unit"))
    return _shown(value, number)


def _is_known(value: Any) -> bool:
    """Whether there is something to say."""
    return value is not None and not (isinstance(value, int | float) and abs(value) >= NO_END)


def _shown(value: Any, number: Say) -> str:
    if isinstance(value, list | tuple):
        return ", ".join(_shown(one, number) for one in value)
    if isinstance(value, bool) or not isinstance(value, int | float):
        return str(value)
    return number(_digits(value))


def _digits(value: float) -> str:
    rounded = float(f"{value:.5e}")
    if rounded.is_integer() and abs(rounded) < 1e21:
        return str(int(rounded))
    if abs(rounded) >= 1e-6:
        return f"{Decimal(repr(rounded)):f}"
    digits, _, exponent = repr(rounded).partition("e")
    return f"{digits}e{int(exponent)}"


def javascript() -> str:
    """The text of `static/generated/messages.js`."""
    return _JAVASCRIPT.format(
        largest=f"{NO_END:g}",
        exact=EXACT,
        agreed=_literal(
            {name: [digits, 1 if side == ROUND_CEILING else -1] for name, (digits, side) in AGREED.items()}
        ),
        verdicts=_literal(VERDICTS),
        states=_literal(STATES),
        severities=_literal(SEVERITIES),
        sentences=_literal(SENTENCES),
    )


def javascript_tables(say: Say) -> str:
    """The text of `static/generated/messages.LANGUAGE.js`: what `speak` of messages.js takes."""
    tables = {"VERDICTS": VERDICTS, "STATES": STATES, "SEVERITIES": SEVERITIES, "SENTENCES": SENTENCES}
    said = (f"export const {name} = {_literal(_in_words(table, say))};\n" for name, table in tables.items())
    return _JAVASCRIPT_HEAD + "".join(f"\n{one}" for one in said)


def _in_words(table: Any, say: Say) -> Any:
    if isinstance(table, dict):
        return {name: _in_words(value, say) for name, value in table.items()}
    return [say(text) for text in table] if isinstance(table, list) else say(table)


def _literal(value: Any) -> str:
    return json.dumps(value, ensure_ascii=False, indent=2)
