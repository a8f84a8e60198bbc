"""Files and functions stay small enough to be read in one sitting.

Not counted: docstrings of functions, generated files, procedures, tables and other data.
"""

import ast
import re
import subprocess
from pathlib import Path
from statistics import median, quantiles

ROOT = Path(__file__).parents[2]

LONG_FUNCTIONS: dict[str, str] = {}
"""Functions over 40 lines, as `path:name`, and why splitting them would make them harder to read."""

LONG_FILE_REASON = re.compile(r"over 400 lines because")


def source_files(*endings):
    """Our own source: what git tracks, and what is new and not ignored."""
    listing = subprocess.run(
        ["git", "ls-files", "--cached", "--others", "--exclude-standard"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    paths = sorted({Path(line) for line in listing.stdout.splitlines()})
    return [
        path
        for path in paths
        if path.suffix in endings and "generated" not in path.parts and (ROOT / path).is_file()
    ]


def line_count(path):
    return len((ROOT / path).read_text().splitlines())


def function_length(function):
    """Lines from `def` to the end, without the docstring and the decorators."""
    length = function.end_lineno - function.lineno + 1
    if ast.get_docstring(function) is not None:
        docstring = function.body[0]
        length -= docstring.end_lineno - docstring.lineno + 1
    return length


def python_functions():
    for path in source_files(".py"):
        for node in ast.walk(ast.parse((ROOT / path).read_text())):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
                yield f"{path.as_posix()}:{node.name}", function_length(node)


def test_files_are_short():
    counts = [count for path in source_files(".py", ".js") if (count := line_count(path)) > 0]
    assert median(counts) < 150
    assert quantiles(counts, n=10)[-1] < 300


def test_a_file_over_400_lines_says_why_at_its_top():
    unexplained = [
        f"{path}: {count} lines"
        for path in source_files(".py", ".js", ".css", ".html", ".typ")
        if (count := line_count(path)) > 400
        and not LONG_FILE_REASON.search("\n".join((ROOT / path).read_text().splitlines()[:20]))
    ]
    assert not unexplained, (
        f"Cut the file, or say within its first 20 lines 'over 400 lines because ...': {unexplained}"
    )


def test_functions_are_short():
    lengths = [length for _, length in python_functions()]
    assert median(lengths) <= 12
    assert quantiles(lengths, n=10)[-1] < 30


def test_a_function_over_40_lines_has_a_reason():
    unexplained = [
        f"{name}: {length} lines"
        for name, length in python_functions()
        if length > 40 and name not in LONG_FUNCTIONS
    ]
    assert not unexplained, f"Cut the function, or give its reason in LONG_FUNCTIONS: {unexplained}"


def test_every_reason_still_belongs_to_a_long_function():
    long_functions = {name for name, length in python_functions() if length > 40}
    assert set(LONG_FUNCTIONS) <= long_functions
