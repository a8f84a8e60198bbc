"""The front-end libraries are exactly the locked files, and a start without them says what to run."""

import json
import shutil
from pathlib import Path

import pytest

from webapp.vendor import LIBRARIES, MissingLibraryError, require_libraries
from webapp.vendor.__main__ import LOCK_FOLDER, MANIFESTS, InstallError, copy_libraries, install


@pytest.fixture
def modules(tmp_path):
    """A folder like npm's, with more in each package than is wanted."""
    for name, files in LIBRARIES.items():
        for file in [*files, "package.json", "README.md", "bin/command.js"]:
            path = tmp_path / "node_modules" / name / file
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(f"{name} {file}")
    return tmp_path / "node_modules"


def test_only_the_named_files_are_copied(modules, tmp_path):
    vendor = tmp_path / "static" / "vendor"
    written = copy_libraries(modules, vendor)
    found = {path.relative_to(vendor).as_posix() for path in vendor.rglob("*") if path.is_file()}
    wanted = {
        f"{name}/{Path(file).name}" for name, files in LIBRARIES.items() for file in [*files, "package.json"]
    }
    assert found == wanted == {path.relative_to(vendor).as_posix() for path in written}


def test_what_was_there_before_is_gone(modules, tmp_path):
    vendor = tmp_path / "static" / "vendor"
    vendor.mkdir(parents=True)
    (vendor / "left-over.js").write_text("old")
    copy_libraries(modules, vendor)
    assert not (vendor / "left-over.js").exists()


def test_a_failed_copy_leaves_the_old_files(modules, tmp_path):
    vendor = tmp_path / "static" / "vendor"
    copy_libraries(modules, vendor)
    (modules / "idb" / "LICENSE").unlink()
    with pytest.raises(FileNotFoundError, match="LICENSE"):
        copy_libraries(modules, vendor)
    require_libraries(vendor.parent)


def test_every_library_brings_its_licence():
    assert all("LICENSE" in files for files in LIBRARIES.values())


def test_a_start_without_the_libraries_says_what_to_run(modules, tmp_path):
    copy_libraries(modules, tmp_path / "static" / "vendor")
    require_libraries(tmp_path / "static")
    (tmp_path / "static" / "vendor" / "idb" / "index.js").unlink()
    with pytest.raises(
        MissingLibraryError, match=r"idb/index\.js is missing\. Run: python -m webapp\.vendor"
    ):
        require_libraries(tmp_path / "static")


def test_a_lock_that_does_not_fit_is_refused(tmp_path):
    for name in MANIFESTS:
        shutil.copy(LOCK_FOLDER / name, tmp_path)
    manifest = json.loads((tmp_path / "package.json").read_text())
    manifest["dependencies"]["idb"] = "7.0.0"
    (tmp_path / "package.json").write_text(json.dumps(manifest))
    with pytest.raises(InstallError, match="could not be installed"):
        install(tmp_path)


def test_the_lock_names_the_versions_of_the_manifest():
    manifest = json.loads((LOCK_FOLDER / "package.json").read_text())
    lock = json.loads((LOCK_FOLDER / "package-lock.json").read_text())
    for name, version in manifest["dependencies"].items():
        assert lock["packages"][f"node_modules/{name}"]["version"] == version
    assert set(manifest["dependencies"]) == set(LIBRARIES)
