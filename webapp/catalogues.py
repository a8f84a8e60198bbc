"""The texts that a person sees, collected from where they stand, and the gettext files in other languages."""

import ast
import re
from collections.abc import Callable, Iterable, Iterator
from io import BytesIO
from pathlib import Path
from typing import Any

from babel.messages import Catalog, Message
from babel.messages.extract import extract
from babel.messages.pofile import read_po, write_po

from checks import procedure as procedures
from checks import translation
from checks.catalogue import FORMULAS
from checks.formula import Formula
from checks.inputs import Choice
from checks.instrument import kind_in_words
from checks.messages import SENTENCES, SEVERITIES, STATES, VERDICTS
from checks.units import OFFERED
from webapp.certificate.render import LAYOUT, SAID
from webapp.language import FOLDER, PLACEHOLDER
from webapp.text import PROBLEMS

MsgId = str | tuple[str, str]
Texts = dict[MsgId, list[str]]
"""Each text, or singular and plural, with the files that it stands in."""

ROOT = Path(__file__).parents[1]
SERVER = {"_": None, "lazy": None, "noop": None, "ngettext": (1, 2)}
PHONE = {"phrase": None, "phrases": (1, 2), "noop": None}
# Their errors and findings are kept in English, and said anew when they are shown.
TOLD = ("webapp/receiving", "webapp/signing", "webapp/store/errors.py", "webapp/passkeys.py", "webapp/sync")
LEAST_TOLD = 15  # characters; shorter constants are names and codes


def webapp_texts() -> Texts:
    """The texts of the pages, of the server's answers and of the phone's scripts."""
    found: Texts = {}
    for path in sorted((ROOT / "webapp").rglob("*.py")):
        collect(found, path, "python", SERVER)
    for path in sorted((ROOT / "webapp").rglob("templates/**/*.html")):
        collect(found, path, "jinja2.ext:babel_extract", SERVER)
    for path in sorted((ROOT / "static").rglob("*.js")):
        if not {"vendor", "generated"} & set(path.parts):
            collect(found, path, "javascript", PHONE, {"parse_template_string": True})
    for text in SAID.findall(LAYOUT.read_text(encoding="utf-8")):
        add(found, text, LAYOUT)
    for text in (text for pair in PROBLEMS.values() for text in pair):
        add(found, text, ROOT / "webapp" / "text.py")
    for path, text in told_sentences():
        if text not in found:
            add(found, text, path)
    return found


def add(found: Texts, text: MsgId, path: Path) -> None:
    place = path.relative_to(ROOT).as_posix()
    if place not in found.setdefault(text, []):
        found[text].append(place)


def collect(found: Texts, path: Path, method: str, keywords: dict, options: dict | None = None) -> None:
    with path.open("rb") as file:
        for _line, text, _comments, _context in extract(
            method, file, keywords, (), {"encoding": "utf-8", **(options or {})}
        ):
            if isinstance(text, tuple):
                add(found, (str(text[0]), str(text[1])), path)
            elif text:
                add(found, text, path)


def told_sentences() -> Iterator[tuple[Path, str]]:
    """Whole sentences in the code of those who find something: f-strings with their places named."""
    for name in TOLD:
        place = ROOT / name
        for path in [place] if place.is_file() else sorted(place.rglob("*.py")):
            nodes = list(ast.walk(ast.parse(path.read_text(encoding="utf-8"))))
            left_out = {id(part) for one in nodes if isinstance(one, ast.JoinedStr) for part in one.values}
            left_out |= {id(one.value) for one in nodes if isinstance(one, ast.Expr)}  # docstrings
            for node in nodes:
                text = None if id(node) in left_out else sentence_of(node)
                if text:
                    yield path, text


def sentence_of(node: ast.AST) -> str | None:
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        text = node.value
    elif isinstance(node, ast.JoinedStr):
        text = "".join(
            str(part.value) if isinstance(part, ast.Constant) else mark_of(part) for part in node.values
        )
    else:
        return None
    is_sentence = re.match("[A-Z“]", text) and text.endswith(".") and " " in text and len(text) > LEAST_TOLD
    return text if is_sentence else None


def mark_of(part: ast.expr) -> str:
    """The place of a value in an f-string, called by the last name that stands in it."""
    value = part.value if isinstance(part, ast.FormattedValue) else part
    names = re.findall(r"[a-z_]+", ast.unparse(value).lower())
    name = next((name for name in reversed(names) if name not in {"or", "r", "join", "nothing"}), "value")
    return f"{{{name}}}"


def checks_texts() -> Texts:
    """The texts of the procedures, of the messages behind the codes, and of the formulas."""
    found: Texts = {}
    for path, texts in sources_of_checks():
        for text in texts:
            add(found, text, ROOT / "checks" / path)
    return found


def sources_of_checks() -> Iterator[tuple[str, Iterable[str]]]:
    tables = (VERDICTS, STATES, SEVERITIES)
    yield "messages.toml", (text for table in tables for words in table.values() for text in words.values())
    yield "messages.toml", (text for sentences in SENTENCES.values() for text in sentences)
    for name in procedures.names():
        yield "procedure", (text for _place, text in translation.shown_texts(procedures.load(name)))
    yield "procedure", sorted(instrument_kinds())
    for formula in FORMULAS.values():
        yield f"formulas/{formula.function.__module__.rpartition('.')[2]}.py", formula_texts(formula)
    yield "units.py", unit_words()
    yield "layout.py", translation.WORDS


def unit_words() -> list[str]:
    """The signs of units that are words."""
    return [unit.label for unit in OFFERED.values() if re.search("[A-Za-z]{5}", unit.label)]


def instrument_kinds() -> set[str]:
    """The kinds of instrument that the procedures ask for, as words."""
    steps = [step for name in procedures.names() for step in procedures.load(name)["steps"]]
    asked = [entry["instrument"] for step in steps for entry in step["entries"]]
    return {kind_in_words(kind) for kind in asked if kind}


def formula_texts(formula: Formula) -> Iterator[str]:
    from webapp.calculator.declared import subject

    yield subject(formula)
    yield formula.text
    for given in formula.inputs.values():
        yield given.meaning
        if isinstance(given, Choice):
            yield from (meaning or word for word, meaning in given.options.items())
    yield from (meaning for _symbol, meaning, _unit, _value in formula.steps)
    yield from (word.replace("_", " ") for word in formula.words or ())


CATALOGUES: tuple[tuple[Path, str, Callable[[], Texts]], ...] = (
    (FOLDER, "webapp", webapp_texts),
    (translation.FOLDER, "checks", checks_texts),
)


def read(path: Path) -> Catalog:
    if not path.exists():
        return Catalog()
    with path.open("rb") as file:
        return read_po(file)


def updated(known: Catalog, texts: Texts, language: str) -> Catalog:
    """The catalogue of exactly these texts, with the translations that are known."""
    header = f"# The texts of Firstwater in {language}. The msgid is the English text; see DEVELOPERS.md."
    made = Catalog(locale=language, header_comment=header, fuzzy=False)
    for text, places in sorted(texts.items(), key=lambda pair: (pair[1][0], str(pair[0]))):
        old = known.get(text if isinstance(text, str) else text[0])
        string: Any = "" if isinstance(text, str) else ("", "")
        if old is not None and old.pluralizable == isinstance(text, tuple):
            string = old.string
        where: Any = [(one, None) for one in sorted(places, key=is_elsewhere)[:3]]
        made.add(text, string, where)
    return made


def is_elsewhere(place: str) -> bool:
    """By its files a text is known as one that the phone says: these come first."""
    return not place.startswith("static/")


def write(path: Path, catalogue: Catalog) -> None:
    text = BytesIO()
    write_po(text, catalogue, width=0, omit_header=True)
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(header(catalogue).encode() + b"\n" + text.getvalue().lstrip(b"\n"))


def header(catalogue: Catalog) -> str:
    """Without times and names of tools, which would differ at every run."""
    lines = [
        f"Language: {catalogue.locale_identifier}",
        "MIME-Version: 1.0",
        "Content-Type: text/plain; charset=utf-8",
        "Content-Transfer-Encoding: 8bit",
        f"Plural-Forms: {catalogue.plural_forms}",
    ]
    quoted = "".join(f'"{line}\\n"\n' for line in lines)
    return f'{catalogue.header_comment}\nmsgid ""\nmsgstr ""\n{quoted}'


def faults(known: Catalog, texts: Texts) -> Iterator[str]:
    """What a reader of the language would miss, or see that should not be there."""
    for text, places in texts.items():
        message = known.get(text if isinstance(text, str) else text[0])
        if message is None or message.pluralizable != isinstance(text, tuple):
            yield f"not in the catalogue: {text!r} of {places[0]}"
        else:
            yield from wrong_translations(message)
    wanted = {text if isinstance(text, str) else text[0] for text in texts}
    for message in known:
        text = message.id if isinstance(message.id, str) else message.id[0] if message.id else ""
        if text and text not in wanted:
            yield f"no such text any more: {text!r}"


def wrong_translations(message: Message) -> Iterator[str]:
    plural = not isinstance(message.id, str)
    english = list(message.id) if plural else [str(message.id)]
    said = list(message.string or ()) if plural else [str(message.string or "")]
    if not all(said):
        yield f"not translated: {english[0]!r}"
        return
    for text, own in zip(english, said, strict=False):
        for what, names in (("placeholders", PLACEHOLDER), ("elements", re.compile(r"</?\w+[^<>]*>"))):
            if sorted(set(names.findall(text))) != sorted(set(names.findall(own))):
                yield f"other {what} than {text!r}: {own!r}"
        if text.count("\n\n") != own.count("\n\n"):
            yield f"other paragraphs than {text!r}"
