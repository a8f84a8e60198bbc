"""The front-end libraries: which files of which package the phone loads, and whether they are there.

`python -m webapp.vendor` fills `static/vendor/` from `package-lock.json`.
"""

from pathlib import Path

LIBRARIES = {
    "canonicalize": ["lib/canonicalize.js", "lib/canonicalize.d.ts", "LICENSE"],
    "idb": [
        "build/index.js",
        "build/index.d.ts",
        "build/entry.d.ts",
        "build/async-iterators.d.ts",
        "build/database-extras.d.ts",
        "build/util.d.ts",
        "build/wrap-idb-value.d.ts",
        "LICENSE",
    ],
    "zxing-wasm": ["dist/iife/reader/index.js", "dist/reader/zxing_reader.wasm", "LICENSE"],
}
"""Package name -> the files that are copied to `static/vendor/NAME/`, without their folder."""


class MissingLibraryError(RuntimeError):
    """A file of `static/vendor/` is not there, so no page could start on a phone."""

    code = "vendor_missing"

    def __init__(self, file: Path) -> None:
        self.file = file
        super().__init__(f"The front-end library {file} is missing. Run: python -m webapp.vendor")


def require_libraries(static: Path) -> None:
    """Raise `MissingLibraryError` for the first library file that is not in `static`/vendor."""
    for name, files in LIBRARIES.items():
        for file in files:
            copied = Path(static, "vendor", name, Path(file).name)
            if not copied.is_file():
                raise MissingLibraryError(copied)
