"""The settings and the store that a command works with."""

import os

from webapp.commands.group import BadInput
from webapp.settings import SettingError, Settings


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
