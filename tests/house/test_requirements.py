"""The tables of requirements name tests that are there, and say of every row what shows it."""

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PAGES = ["docs/asvs.md", "docs/part-11.md"]
NAMED = re.compile(r"`([\w/]+\.py)(?:::(\w+))?`")
HEADINGS = ("number", "clause", "---")
# What a row may say instead of naming a test.
HONEST = (
    "missing",
    "departs",
    "there is none",
    "does not apply",
    "[",
    "each is listed",
    "the button",
    "hold every",
)


def rows(page: str) -> list[list[str]]:
    lines = [line for line in (ROOT / page).read_text(encoding="utf-8").splitlines() if line.startswith("|")]
    cells = [[cell.strip() for cell in line.strip("|").split("|")] for line in lines]
    return [row for row in cells if not row[0].startswith(HEADINGS)]


@pytest.mark.parametrize("page", PAGES)
def test_each_named_test_is_there(page: str) -> None:
    named = NAMED.findall((ROOT / page).read_text(encoding="utf-8"))
    assert len(named) > 25
    missing = [f"{file}::{name}" for file, name in named if not is_there(ROOT / "tests" / file, name)]
    assert missing == []


def is_there(file: Path, name: str) -> bool:
    return file.exists() and (not name or f"def {name}(" in file.read_text(encoding="utf-8"))


@pytest.mark.parametrize("page", PAGES)
def test_each_row_shows_something_or_says_that_it_does_not(page: str) -> None:
    for row in rows(page):
        shown = " ".join(row[1:])
        belongs_to_others = len(row) == 4 and not row[1] and row[3]
        is_honest = any(word in shown.lower() for word in HONEST)
        assert NAMED.search(shown) or is_honest or belongs_to_others, f"{page}: {row[0]} shows nothing"
