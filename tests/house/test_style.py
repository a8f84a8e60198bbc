"""Rules of the house that a linter does not know."""

import re
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
TOP_LEVEL = {"README.md", "DEVELOPERS.md", "pyproject.toml", "webapp", "checks", "tests", "static", "docs"}
EMPTY_NAMES = {"utils", "util", "helpers", "helper", "misc", "common"}
EXECUTABLES = {"webapp/serve", "tests/run", "tests/lock", ".ci/run"}
# Written in two halves, so that this file passes its own test.
MACHINE_PATHS = re.compile(r"(?<![\w.:/-])/(?:" + "wo" + r"rk|" + "ro" + r"ot|" + "tm" + r"p|home)/[\w.]")
REGISTRIES = re.compile(
    "py" + r"pi\.org|registry\.npm" + r"js|files\.python" + "hosted|index-" + "url", re.IGNORECASE
)


def tracked_files():
    listing = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=True)
    return [path for line in listing.stdout.splitlines() if (path := ROOT / line).is_file()]


def tracked_text():
    """(path relative to the root, text) of every tracked file that is text."""
    for path in tracked_files():
        try:
            yield path.relative_to(ROOT).as_posix(), path.read_text(encoding="utf-8")
        except UnicodeDecodeError:
            continue


def lines_matching(pattern):
    return [
        f"{path}:{number}: {line.strip()[:120]}"
        for path, text in tracked_text()
        for number, line in enumerate(text.splitlines(), 1)
        if pattern.search(line)
    ]


def test_the_top_level_holds_eight_names():
    names = {path.relative_to(ROOT).parts[0] for path in tracked_files()}
    assert {name for name in names if not name.startswith(".")} == TOP_LEVEL


def test_a_module_is_named_by_its_subject():
    vague = [path for path in tracked_files() if path.stem in EMPTY_NAMES or path.parent.name in EMPTY_NAMES]
    assert not vague, f"If two places need it, it has a subject; name the file by it: {vague}"


def test_no_file_names_a_path_of_somebodys_machine():
    assert lines_matching(MACHINE_PATHS) == []


def test_no_file_names_a_package_registry():
    assert lines_matching(REGISTRIES) == []


@pytest.mark.parametrize("folder", ["webapp/vendor", "tests/node", "tests/benchmarks/node"])
def test_a_lock_file_has_integrity_values_and_no_addresses(folder):
    text = (ROOT / folder / "package-lock.json").read_text()
    assert '"integrity": "sha512-' in text
    assert '"resolved"' not in text, (
        "Install with omit-lockfile-registry-resolved=true and commit the lock again"
    )


def test_constraints_are_exact_and_in_one_file_only():
    server, tests = (
        (ROOT / folder / "constraints.txt").read_text().split() for folder in ("webapp", "tests")
    )
    for line in server + tests:
        assert re.fullmatch(r"[\w.-]+==[\w.]+", line), f"Not an exact version: {line}"
    assert not set(server) & set(tests)


@pytest.mark.parametrize("executable", sorted(EXECUTABLES))
def test_an_executable_says_how_it_is_used(executable):
    mode = subprocess.run(
        ["git", "ls-files", "-s", executable], cwd=ROOT, capture_output=True, text=True
    ).stdout
    assert mode.startswith("100755"), f"Make it executable: git update-index --chmod=+x {executable}"
    assert f"# Usage: {executable}" in (ROOT / executable).read_text()
