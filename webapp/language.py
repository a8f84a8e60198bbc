"""In which language a page is answered, and the texts, numbers and days of that language.

A msgid is the English text. Its {names} are filled in after it was translated, so that no sentence is put
together from pieces. ``_`` says a text now, ``lazy`` when it is shown (for what is made at the start: forms),
``noop`` only marks a text that somebody says later. A catalogue is read when its language is first asked for.
"""

import gettext as standard
import re
import sqlite3
from collections.abc import Callable, Mapping
from datetime import datetime
from functools import cache
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

from flask import Flask, Response, g, has_request_context, request
from markupsafe import Markup, escape

from checks import messages, translation
from checks import procedure as procedures
from webapp import current
from webapp.store import StoreError

LANGUAGES = {"en": "English", "de": "Deutsch"}
ENGLISH = "en"
PARAMETER = "lang"
FOLDER = Path(__file__).parent / "translations"

# Phones keep these pages, and anyone may fetch them: their language is a matter of their address alone.
BY_ADDRESS = frozenset({"field", "calculator", "pwa"})

PLACEHOLDER = re.compile(r"\{(\w+)\}")


def language() -> str:
    """The language of this answer; English where nobody asks."""
    if not has_request_context():
        return ENGLISH
    if "language" not in g:
        g.language = find()
    return g.language


def find() -> str:
    asked = request.args.get(PARAMETER, "")
    if asked in LANGUAGES:
        return asked
    return ENGLISH if request.blueprint in BY_ADDRESS else readers_own()


def readers_own() -> str:
    """The choice of the signed-in person, else what the browser asks for."""
    try:
        person = current.person()
    except (StoreError, sqlite3.Error, OSError):  # the page that says so has a language, too
        person = None
    if person is not None and person.language in LANGUAGES:
        return person.language
    g.language_was_negotiated = True
    return request.accept_languages.best_match(list(LANGUAGES)) or ENGLISH


def forget() -> None:
    """The reader's choice changes within this request."""
    g.pop("language", None)


@cache
def catalogue(name: str) -> standard.NullTranslations:
    """The interface's texts in a language, then those of ``checks/``."""
    found = translation.catalogue(FOLDER / name / "LC_MESSAGES" / "webapp.po")
    found.add_fallback(translation.catalogue(translation.FOLDER / name / "LC_MESSAGES" / "checks.po"))
    return found


def say(text: str) -> str:
    """A text without names to fill in, in the language of this answer."""
    name = language()
    return text if name == ENGLISH or not text else catalogue(name).gettext(text)


def filled(text: str, values: Mapping[str, Any]) -> str:
    return PLACEHOLDER.sub(lambda found: str(values.get(found[1], found[0])), text) if values else text


def _(text: str, /, **values: object) -> str:
    return filled(say(text), values)


def ngettext(one: str, many: str, count: int, /, **values: object) -> str:
    """The form of a text for a number, which fills in {count}."""
    name = language()
    known = standard.NullTranslations() if name == ENGLISH else catalogue(name)
    found = known.ngettext(one, many, count)
    return filled(found, {"count": count, **values})


def noop(text: str) -> str:
    """Marks a text for the catalogue; whoever shows it says it."""
    return text


class lazy:  # noqa: N801 - used like a function
    """A text that is said when it is shown."""

    def __init__(self, text: str, /, **values: object):
        self.text = text
        self.values = values

    def __str__(self) -> str:
        return _(self.text, **self.values)

    def __html__(self) -> str:
        return str(escape(str(self)))

    def __mod__(self, values: Any) -> str:
        return str(self) % values

    def __eq__(self, other: object) -> bool:
        return str(self) == str(other)

    def __hash__(self) -> int:
        return hash(self.text)


def procedure(document: Mapping[str, Any]) -> dict[str, Any]:
    """A procedure's plain data for showing: its texts in the language of this answer, all else as it was."""
    name = language()
    if name == ENGLISH:
        return document  # type: ignore[return-value]
    return translation.translated(document, translation.speaker(name))


@cache
def present_procedure(name: str, reader: str) -> dict[str, Any]:
    document = procedures.load(name)
    return document if reader == ENGLISH else translation.translated(document, translation.speaker(reader))


def named_procedure(name: str) -> dict[str, Any]:
    """The present procedure of this name, for showing. The same object each time: do not change it."""
    return present_procedure(name, language())


def told(text: str) -> str:
    """A sentence that was kept or raised in English, said anew: what stands in its {places} is taken over."""
    name = language()
    if name == ENGLISH or not text:
        return text
    found = say(text)
    if found != text:
        return found
    for pattern, msgid in patterns(name):
        if fit := pattern.fullmatch(text):
            return _(msgid, **{place: told(value) for place, value in fit.groupdict().items()})
    return text


@cache
def patterns(name: str) -> tuple[tuple[re.Pattern[str], str], ...]:
    """The whole sentences of the catalogue that have places to fill in, those with the most words first."""
    known = [
        text for text in getattr(catalogue(name), "_catalog", {}) if isinstance(text, str) and is_told(text)
    ]
    return tuple((pattern_of(text), text) for text in sorted(known, key=len, reverse=True))


def is_told(text: str) -> bool:
    return text.endswith(".") and len(PLACEHOLDER.sub("", text)) > 15 and bool(PLACEHOLDER.search(text))


def pattern_of(text: str) -> re.Pattern[str]:
    parts = PLACEHOLDER.split(text)
    seen: set[str] = set()
    built = ""
    for place, part in enumerate(parts):
        if place % 2 == 0:
            built += re.escape(part)
        else:
            built += f"(?P={part})" if part in seen else f"(?P<{part}>.+)"
            seen.add(part)
    return re.compile(built, re.DOTALL)


def sentence(code: str | Mapping[str, Any], **details: Any) -> str:
    """What a code of ``checks/`` says."""
    return messages.sentence(code, say, decimal, **details)


def in_template(text: str, /, **values: object) -> Markup:
    """The same in a template. A text may hold elements; what is filled in is escaped."""
    return marked_up(say(text), values)


def plural_in_template(one: str, many: str, count: int, /, **values: object) -> Markup:
    return marked_up(ngettext(one, many, count), {"count": count, **values})


def marked_up(text: str, values: Mapping[str, Any]) -> Markup:
    # An apostrophe stays as it is: attributes of our templates stand in double quotes.
    safe = text if "<" in text else text.replace("&", "&amp;").replace('"', "&quot;").replace(">", "&gt;")
    return Markup(filled(safe, {name: escape(value) for name, value in values.items()}))  # noqa: S704


def decimal(text: str) -> str:
    """A number that was written with a decimal point, as the reader writes it."""
    return text if language() == ENGLISH else text.replace(".", ",")


def address(path: str) -> str:
    """The address of a page that phones keep, in the language of this answer."""
    name = language()
    if name == ENGLISH:
        return path
    page, mark, anchor = path.partition("#")
    return f"{page}{'&' if '?' in page else '?'}{PARAMETER}={name}{mark}{anchor}"


def date(text: str) -> str:
    """The day of a date or an instant (UTC), in figures; another text stays as it is."""
    return in_figures(text[:10], lambda moment, dates, locale: dates.format_date(moment, "medium", locale))


def minute(text: str) -> str:
    """Day and time of an instant (UTC), to the minute."""
    return in_figures(text[:16].replace("T", " "), day_and_time("short"))


def second(text: str) -> str:
    """Day and time of an instant (UTC), to the second."""
    return in_figures(text[:19].replace("T", " "), day_and_time("medium"))


def day_and_time(width: str) -> Callable[..., str]:
    def written(moment: datetime, dates: Any, locale: str) -> str:
        day, time = (
            dates.format_date(moment, "medium", locale),
            dates.format_time(moment, width, locale=locale),
        )
        return f"{day}, {time}"

    return written


def in_figures(text: str, write: Callable[..., str]) -> str:
    if language() == ENGLISH:
        return text  # ISO 8601, which nobody reads in two ways
    from babel import dates

    try:
        return write(datetime.fromisoformat(text), dates, language())
    except ValueError:
        return text


def long_day(moment: datetime) -> str:
    """A day with the month in letters."""
    if language() == ENGLISH:
        return f"{moment.day} {moment:%B %Y}"
    from babel.dates import format_date

    return format_date(moment, "long", language())


def switch() -> list[dict[str, object]]:
    """Each language with its own name, the present one marked, and this page's address in it."""
    given = {} if request.blueprint == "field" else request.args  # a kept page is the same for every query
    query = [(name, value) for name, value in given.items() if name != PARAMETER]
    return [
        {
            "code": code,
            "name": name,
            "current": code == language(),
            "address": f"?{urlencode([*query, (PARAMETER, code)])}",
        }
        for code, name in LANGUAGES.items()
    ]


def install(app: Flask) -> None:
    """Give the templates of ``app`` their texts, and its answers the headers that caches need."""
    app.jinja_env.globals.update(
        _=in_template, ngettext=plural_in_template, language=language, languages=switch, at=address
    )
    app.jinja_env.filters.update(
        said=say, told=told, date=date, minute=minute, second=second, decimal=decimal
    )

    @app.after_request
    def vary(response: Response) -> Response:
        if g.get("language_was_negotiated"):
            response.vary.add("Accept-Language")
        return response
