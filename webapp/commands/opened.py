"""The settings and the store that a command works with."""

import os
from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

from webapp.commands.group import BadInput
from webapp.settings import SettingError, Settings

if TYPE_CHECKING:
    from webapp.store import Store


def read_settings(**overrides: object) -> Settings:
    """The settings of the environment; a keyword that is not None stands in for its variable."""
    environment = dict(os.environ)
    for field, value in overrides.items():
        if value is not None:
            environment[f"FIRSTWATER_{field.upper()}"] = str(value)
    try:
        return Settings.from_environment(environment)
    except SettingError as error:
        raise BadInput(str(error)) from None


@contextmanager
def opened_store(must_exist: bool = True) -> Iterator["Store"]:
    """The store of the settings, closed afterwards; what it refuses becomes one clear line.

    With `must_exist` a database that is not there is an error: a new empty one would hide a mistyped path.
    """
    from webapp import current
    from webapp.store import Store, StoreError

    settings = read_settings()
    if must_exist and not settings.database.exists():
        raise BadInput(
            f"FIRSTWATER_DATABASE: there is no database at {settings.database}. "
            "Name the one that the server uses."
        )
    store = Store(settings.database, current.utc_now, settings.photos)
    try:
        yield store
    except StoreError as error:
        raise BadInput(str(error)) from None
    finally:
        store.close()
