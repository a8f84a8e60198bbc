"""The command `firstwater`, run in this process as a shell would."""

from dataclasses import dataclass

import pytest
from click.testing import CliRunner

from webapp.commands import main


@dataclass
class Ended:
    status: int
    out: str
    err: str


@pytest.fixture
def firstwater(tmp_path, monkeypatch):
    """`firstwater("user", "list")` in an empty folder, on the data of the fixture `store`."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("FIRSTWATER_DATABASE", str(tmp_path / "test.db"))

    def run(*arguments, typed=None):
        result = CliRunner().invoke(
            main, [str(one) for one in arguments], input=typed, prog_name="firstwater"
        )
        if result.exception and not isinstance(result.exception, SystemExit):
            raise result.exception
        return Ended(result.exit_code, result.stdout, result.stderr)

    return run
