"""The worker, the manifest and the script that names the build."""

import json
from collections.abc import Iterator

from flask import Blueprint, Flask, Response, abort, current_app, request

from webapp.language import _, language, noop
from webapp.pwa import precache
from webapp.rights import right

BUILD_LINE = 'const BUILD = "";'
FILES_LINE = "const FILES = [];"
QUERY_LINE = 'const QUERY = "";'
OPTIONAL_LINE = "const OPTIONAL = [];"

SURFACE = "#ffffff"
WATER = "#0a5566"

MANIFEST = {
    "id": "/field",
    "name": "Firstwater",
    "short_name": "Firstwater",
    "description": noop(
        "The commissioning record of a purified-water unit, filled in and signed on the phone."
    ),
    "lang": "en",
    "start_url": "/field",
    "scope": "/",
    "display": "standalone",
    "background_color": SURFACE,
    "theme_color": WATER,
    "icons": [
        {"src": "/static/icons/icon.svg", "sizes": "any", "type": "image/svg+xml"},
        {"src": "/static/icons/icon-192.png", "sizes": "192x192", "type": "image/png"},
        {"src": "/static/icons/icon-512.png", "sizes": "512x512", "type": "image/png"},
        {
            "src": "/static/icons/icon-maskable-512.png",
            "sizes": "512x512",
            "type": "image/png",
            "purpose": "maskable",
        },
    ],
}


def add_to(blueprint: Blueprint) -> None:
    blueprint.get("/sw.js")(worker)
    blueprint.get("/manifest.webmanifest")(manifest)
    blueprint.get(precache.BUILD_SCRIPT)(build_script)
    blueprint.get("/parcels/<string:name>")(parcel)


def page_urls() -> Iterator[str]:
    yield "/manifest.webmanifest"


@right("anyone")
def worker() -> Response:
    """``static/sw.js`` with the build and its files; at the root, so that it answers for every page."""
    kept = precache.of(running_app(), language())
    text = precache.worker_body(running_app()).decode()
    text = with_constant(text, BUILD_LINE, f"const BUILD = {json.dumps(kept.build)};")
    text = with_constant(text, FILES_LINE, f"const FILES = {json.dumps(kept.files, indent=0)};")
    text = with_constant(text, QUERY_LINE, f"const QUERY = {json.dumps(precache.query_of(language()))};")
    text = with_constant(text, OPTIONAL_LINE, f"const OPTIONAL = {json.dumps(kept.optional, indent=0)};")
    return answer(text, "text/javascript")


def with_constant(text: str, line: str, written: str) -> str:
    if text.count(line) != 1:
        raise ValueError(f"static/sw.js must hold the line {line} once, for the server to write.")
    return text.replace(line, written)


@right("anyone")
def manifest() -> Response:
    said = {"description": _(str(MANIFEST["description"])), "lang": language()}
    return answer(
        json.dumps(MANIFEST | said, indent=2, ensure_ascii=False) + "\n", "application/manifest+json"
    )


@right("anyone")
def build_script() -> Response:
    kept = precache.of(running_app(), language())
    return answer(precache.build_script(kept.build), "text/javascript")


@right("anyone")
def parcel(name: str) -> Response:
    """Many kept files in one answer, see ``parcel.py``."""
    found = precache.of(running_app(), language()).parcels.get(name)
    if found is None:
        abort(404)
    content, coding = found.encoded(request.accept_encodings)
    response = answer(content, "application/json")
    response.vary.add("Accept-Encoding")
    if coding:
        response.headers["Content-Encoding"] = coding
    return response


def running_app() -> Flask:
    return current_app._get_current_object()  # type: ignore[attr-defined]


def answer(content: str | bytes, content_type: str) -> Response:
    """Always asked for again: a phone must learn of a new build, whatever a cache has kept."""
    response = Response(content, content_type=f"{content_type}; charset=utf-8")
    response.headers["Cache-Control"] = "no-cache"
    return response
