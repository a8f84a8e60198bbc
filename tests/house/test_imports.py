"""The direction of imports, as the contracts of pyproject.toml state it."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]


def test_no_import_points_up():
    command = [sys.executable, "-c", "from importlinter.cli import lint_imports_command as run; run()"]
    result = subprocess.run(command, cwd=ROOT, capture_output=True, text=True)
    assert result.returncode == 0, result.stdout + result.stderr
