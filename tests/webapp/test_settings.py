"""Settings: one table, read once, nothing ignored."""

import dataclasses
from pathlib import Path

import pytest

from webapp.settings import TABLE, SettingError, Settings


def read(tmp_path: Path, **values: str) -> Settings:
    environment = {"FIRSTWATER_DATABASE": str(tmp_path / "test.db")}
    return Settings.from_environment(
        environment | {f"FIRSTWATER_{name.upper()}": text for name, text in values.items()}
    )


def test_the_table_describes_every_field_once() -> None:
    assert [row.field for row in TABLE] == [field.name for field in dataclasses.fields(Settings)]


def test_defaults_hold_where_nothing_is_set(tmp_path: Path) -> None:
    settings = read(tmp_path)
    assert (settings.port, settings.secure_cookies, settings.demo) == (8000, False, False)
    assert settings.photos == tmp_path / "photos"


def test_what_is_set_is_read(tmp_path: Path) -> None:
    settings = read(tmp_path, port="8443", secure_cookies="Yes", base_url="https://w.example/", photos="/p")
    assert (settings.port, settings.secure_cookies, settings.base_url) == (8443, True, "https://w.example")
    assert settings.photos == Path("/p")


def test_an_unknown_variable_stops_the_start_and_names_what_was_meant(tmp_path: Path) -> None:
    with pytest.raises(
        SettingError, match=r"FIRSTWATER_PROT: there is no such setting\. Did you mean FIRSTWATER_PORT"
    ):
        read(tmp_path, prot="8443")


def test_other_variables_are_none_of_our_business(tmp_path: Path) -> None:
    assert Settings.from_environment({"PATH": "/bin", "FIRSTWATER_DATABASE": str(tmp_path / "x.db")})


@pytest.mark.parametrize(
    ("name", "text", "sentence"),
    [
        ("port", "many", "write a whole number"),
        ("port", "0", "at least 1"),
        ("proxies", "-1", "write a whole number"),
        ("secure_cookies", "maybe", "write yes or no"),
        ("secret_key", "short", "at least 32 characters"),
    ],
)
def test_a_value_that_cannot_be_used_is_named(tmp_path: Path, name: str, text: str, sentence: str) -> None:
    with pytest.raises(SettingError, match=f"FIRSTWATER_{name.upper()}: .*{sentence}"):
        read(tmp_path, **{name: text})


def test_the_key_is_made_once_and_kept_for_the_owner_alone(tmp_path: Path) -> None:
    first = read(tmp_path).secret_key
    assert len(first) >= 32
    assert read(tmp_path).secret_key == first
    assert (tmp_path / "secret-key").stat().st_mode & 0o077 == 0


def test_settings_cannot_be_changed_later(tmp_path: Path) -> None:
    with pytest.raises(dataclasses.FrozenInstanceError):
        read(tmp_path).port = 1
