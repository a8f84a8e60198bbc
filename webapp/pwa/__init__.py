"""What makes the pages an installed app: the service worker, the web app manifest, the list of kept files."""

from pathlib import Path

from flask import Blueprint, Flask
from flask.blueprints import BlueprintSetupState

from webapp.pwa import precache, routes
from webapp.vendor import require_libraries


def make_blueprint() -> Blueprint:
    blueprint = Blueprint("pwa", __name__)
    blueprint.record_once(prepare)
    routes.add_to(blueprint)
    return blueprint


def prepare(state: BlueprintSetupState) -> None:
    """Refuse to start without the front-end libraries; tell other parts how to learn the build."""
    app: Flask = state.app  # type: ignore[assignment]
    require_libraries(Path(str(app.static_folder)))
    app.extensions["build"] = lambda: precache.of(app).build
    app.extensions.setdefault("precache_urls", []).append(routes.page_urls)
