"""What a phone keeps: every file it may need, by the hash of its bytes, under a build that names them all."""

import base64
import gzip
import hashlib
import json
import re

import brotli
import pytest
from flask import Flask, current_app

from webapp.pwa import make_blueprint, precache
from webapp.vendor import LIBRARIES, MissingLibraryError


def write(folder, files):
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)


@pytest.fixture
def static(tmp_path):
    folder = tmp_path / "static"
    write(folder, {"start.js": "start", "parts/lazy.js": "lazy", "app.css": "css", "types.d.ts": "types"})
    write(
        folder, {"sw.js": 'const BUILD = "";\nconst FILES = [];\nconst QUERY = "";\nconst OPTIONAL = [];\n'}
    )
    for name, files in LIBRARIES.items():
        write(folder, {f"vendor/{name}/{file.rpartition('/')[2]}": name for file in [*files, "package.json"]})
    return folder


def application(static, pages):
    app = Flask("phone", static_folder=static, static_url_path="/static")
    app.extensions["precache_urls"] = [lambda: pages]
    app.register_blueprint(make_blueprint())
    for url in pages:
        if url != "/absent":
            app.add_url_rule(url, url.replace("/", "_"), lambda url=url: f"<h1>{url}</h1>")
    return app


def sri(content):
    return "sha256-" + base64.b64encode(hashlib.sha256(content).digest()).decode()


def test_files_pages_manifest_and_build_are_kept_with_their_hashes(static):
    app = application(static, ["/field", "/field/visit"])
    kept = {url: value for url, value, _ in precache.of(app).files}
    assert kept["/static/parts/lazy.js"] == sri(b"lazy")
    assert kept["/field/visit"] == sri(b"<h1>/field/visit</h1>")
    client = app.test_client()
    for url, integrity in kept.items():
        with client.get(url) as response:
            assert sri(response.data) == integrity
    assert {"/manifest.webmanifest", "/build.js", "/static/vendor/idb/index.js"} <= set(kept)


def test_what_no_page_loads_is_not_kept(static):
    kept = {url for url, _, _ in precache.of(application(static, ["/field"])).files}
    assert {url for url in kept if re.search(r"d\.ts$|LICENSE|package\.json|sw\.js", url)} == set()


def test_one_other_byte_makes_another_build(static):
    before = precache.of(application(static, ["/field"]))
    same = precache.of(application(static, ["/field"]))
    (static / "parts" / "lazy.js").write_text("lazy.")
    after = precache.of(application(static, ["/field"]))
    assert before == same
    assert before.build != after.build


def test_another_page_makes_another_build(static):
    one = precache.of(application(static, ["/field"]))
    two = precache.of(application(static, ["/field", "/field/visit"]))
    assert one.build != two.build


def test_a_page_that_cannot_be_kept_is_named(static):
    app = application(static, ["/field", "/absent"])
    with pytest.raises(precache.KeptPageError, match=r"/absent answers 404 instead of 200"):
        precache.of(app)


def test_the_worker_carries_the_build_and_the_files(static):
    app = application(static, ["/field"])
    response = app.test_client().get("/sw.js")
    kept = precache.of(app)
    assert response.mimetype == "text/javascript"
    assert response.headers["Cache-Control"] == "no-cache"
    constants = r'const BUILD = (.*?);\nconst FILES = (.*);\nconst QUERY = "";\nconst OPTIONAL = (.*);\n'
    build, files, optional = re.fullmatch(constants, response.text, re.DOTALL).groups()
    assert json.loads(build) == kept.build
    assert [tuple(one) for one in json.loads(files)] == list(kept.files)
    assert [tuple(one) for one in json.loads(optional)] == list(kept.optional)


def test_the_reader_of_codes_is_no_file_that_an_installation_waits_for(static):
    kept = precache.of(application(static, ["/field"]))
    assert {url for url, _, _ in kept.files if "zxing" in url} == set()
    assert dict(kept.optional) == {
        f"/static/vendor/zxing-wasm/{name}": sri(b"zxing-wasm") for name in ("index.js", "zxing_reader.wasm")
    }


def test_another_reader_makes_another_build(static):
    before = precache.of(application(static, ["/field"]))
    (static / "vendor/zxing-wasm/zxing_reader.wasm").write_text("newer")
    assert precache.of(application(static, ["/field"])).build != before.build


def test_a_file_in_a_parcel_is_the_file_with_the_headers_that_it_has_alone(static):
    app = application(static, ["/field", "/field/visit"])
    client = app.test_client()
    parcels = {parcel for _, _, parcel in precache.of(app).files if parcel}
    files = {url: about for parcel in parcels for url, about in client.get(parcel).json["files"].items()}
    assert {"/field", "/field/visit", "/static/start.js", "/manifest.webmanifest"} <= set(files)
    for url, about in files.items():
        with client.get(url) as alone:
            assert about["text"].encode() == alone.data
            assert about["headers"].items() <= dict(alone.headers).items()
            assert about["headers"]["Content-Type"] == alone.headers["Content-Type"]


def test_a_parcel_is_compressed_as_the_phone_takes_it(static):
    client = application(static, ["/field"]).test_client()
    plain = client.get("/parcels/pages")
    packed = client.get("/parcels/pages", headers={"Accept-Encoding": "gzip, br"})
    older = client.get("/parcels/pages", headers={"Accept-Encoding": "gzip"})
    assert (packed.headers["Content-Encoding"], brotli.decompress(packed.data)) == ("br", plain.data)
    assert (older.headers["Content-Encoding"], gzip.decompress(older.data)) == ("gzip", plain.data)
    assert plain.headers["Vary"] == "Accept-Encoding"
    assert client.get("/parcels/absent").status_code == 404


def test_what_is_kept_may_depend_on_the_store(static):
    app = application(static, ["/field"])
    app.config["SHOWN"] = "/field/visit"
    app.add_url_rule("/field/visit", "visit", lambda: "<h1>Visit</h1>")
    app.extensions["precache_urls"].append(lambda: [current_app.config["SHOWN"]])
    assert "/field/visit" in [url for url, _, _ in precache.of(app).files]


def test_a_worker_without_its_constants_is_refused(static):
    (static / "sw.js").write_text("const FILES = [];")
    app = application(static, ["/field"])
    app.testing = True
    with pytest.raises(ValueError, match=r"must hold the line const BUILD = "):
        app.test_client().get("/sw.js")


def test_the_build_is_told_to_the_rest_of_the_application(static):
    app = application(static, ["/field"])
    build = app.extensions["build"]()
    assert build == precache.of(app).build
    assert app.test_client().get("/build.js").text == f'export const BUILD = "{build}";\n'


def test_no_start_without_the_libraries(static):
    (static / "vendor" / "idb" / "index.js").unlink()
    with pytest.raises(MissingLibraryError, match=r"Run: python -m webapp\.vendor"):
        application(static, ["/field"])
