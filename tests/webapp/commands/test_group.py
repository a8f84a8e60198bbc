"""What all commands share."""

import pytest

from webapp.commands import PLACES


def test_without_a_command_the_help_is_shown_and_the_status_is_bad_input(firstwater):
    ended = firstwater()
    assert ended.status == 2
    assert "Commands:" in ended.err


@pytest.mark.parametrize("command", PLACES)
def test_every_command_has_help(firstwater, command):
    ended = firstwater(command, "--help")
    assert ended.status == 0
    assert f"firstwater {command}" in ended.out


def test_an_unknown_command_is_one_line_with_near_names(firstwater):
    ended = firstwater("verfy")
    assert ended.status == 2
    assert ended.err == "firstwater: There is no command 'verfy'. Did you mean verify?\n"


def test_an_unknown_option_is_one_line(firstwater):
    ended = firstwater("user", "list", "--jso")
    assert ended.status == 2
    assert ended.err.count("\n") == 1
    assert "--json" in ended.err


def test_an_unknown_setting_is_one_line_that_names_it(firstwater, monkeypatch):
    monkeypatch.setenv("FIRSTWATER_DATABSE", "somewhere.db")
    ended = firstwater("user", "list")
    assert ended.status == 2
    assert ended.err.startswith("firstwater: FIRSTWATER_DATABSE: there is no such setting")
    assert ended.err.count("\n") == 1
