"""The page of commands."""

import re

from webapp.commands import PLACES, reference


def test_the_page_has_a_heading_for_every_command():
    headings = re.findall(r"^## `(.+)`$", reference(), re.MULTILINE)
    assert headings[0] == "firstwater"
    assert {f"firstwater {name}" for name in PLACES} <= set(headings)
    assert {"firstwater user add", "firstwater device revoke", "firstwater formula list"} <= set(headings)


def test_the_page_is_the_same_however_wide_the_terminal_is(monkeypatch):
    monkeypatch.setenv("COLUMNS", "60")
    narrow = reference()
    monkeypatch.setenv("COLUMNS", "200")
    assert reference() == narrow
