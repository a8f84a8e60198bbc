"""Generated files are what their generators would write now."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]


@pytest.mark.parametrize("generator", ["checks.generate", "webapp.generate"])
def test_committed_files_are_what_the_generator_writes(generator):
    command = [sys.executable, "-m", generator, "--check"]
    result = subprocess.run(command, cwd=ROOT, capture_output=True, text=True)
    assert result.returncode == 0, f"{result.stdout}{result.stderr}\nTo update: python -m {generator}"
