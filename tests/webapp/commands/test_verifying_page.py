"""The program on the page "Verifying a record without us", run as a stranger would run it."""

import copy
import json
import re
import subprocess
import sys
from pathlib import Path

import pytest

from tests.webapp.commands import sample as samples
from tests.webapp.commands.test_verify_breaks import BREAKS, tampered

PAGE = Path(__file__).parents[3] / "docs" / "verifying.md"


@pytest.fixture(scope="module")
def sample(tmp_path_factory):
    return samples.make(tmp_path_factory.mktemp("sample"))


@pytest.fixture
def stranger(tmp_path):
    """Exit status and what is said; `-I` keeps the program away from our packages in this folder."""
    program = re.search(r"^```python\n(.*?)^```$", PAGE.read_text(), re.MULTILINE | re.DOTALL).group(1)
    assert "webapp" not in program
    (tmp_path / "verify.py").write_text(program)

    def run(content):
        (tmp_path / "bundle.json").write_text(json.dumps(content))
        command = [sys.executable, "-I", "-W", "ignore", "verify.py", "bundle.json"]
        ended = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=False)
        return ended.returncode, ended.stdout + ended.stderr

    return run


def test_it_finds_the_whole_bundle_valid(stranger, sample):
    assert stranger(sample.bundle) == (0, "valid: records 3, decisions 3\n")


SEEN = {
    "exchange_signature": "a signature does not hold",
    "leave_key_out": "is missing",
    "revoke_before": "was revoked before",
    "take_from_middle": "a record is missing from the chain",
    "change_photo": "is another",
    "decide_elsewhere": "that was decided on is missing",
}


def test_it_finds_what_the_command_finds_but_for_verdicts_and_passkeys(stranger, sample):
    for change, *_ in BREAKS:
        if change.__name__ in SEEN:
            content = copy.deepcopy(sample.bundle)
            change(content, sample)
            status, said = stranger(content)
            assert (status, said.startswith("NOT VALID: ")) == (1, True), (change, said)
            assert SEEN[change.__name__] in said


def test_it_finds_a_changed_reading(stranger, sample):
    content = copy.deepcopy(sample.bundle)
    content["records"][2]["jws"] = tampered(content["records"][2]["jws"])
    assert stranger(content)[0] == 1


def test_the_page_explains_every_code_that_verify_can_give():
    """All codes that are written in the code of verification; a new one has to be explained."""
    root = PAGE.parents[1] / "webapp"
    files = [*(root / "signing").glob("*.py"), *(root / "commands").glob("*.py")]
    found = set()
    for path in files:
        if path.name != "unsent.py":  # the seal of a file on its way in, not a document
            found |= set(
                re.findall(r'(?:Finding|NotValid|Fault)\(\s*(?:place, )?"([a-z_]+)"', path.read_text())
            )
    explained = set(re.findall(r"`([a-z_]+)`", PAGE.read_text()))
    assert found - explained <= {"key_not_allowed"}, "a key that cannot be used is told as bad input"
    assert {"chain_broken", "photo_missing", "audit_changed", "signature_wrong"} <= found
