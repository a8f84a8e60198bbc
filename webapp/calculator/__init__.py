"""One formula at a time: the catalogue as pages that a phone keeps, and that work without script too."""

from flask import Blueprint
from flask.blueprints import BlueprintSetupState

from webapp.calculator import routes


def make_blueprint() -> Blueprint:
    blueprint = Blueprint("calculator", __name__, template_folder="templates")
    routes.add_to(blueprint)
    blueprint.record_once(offer_for_offline_use)
    return blueprint


def offer_for_offline_use(state: BlueprintSetupState) -> None:
    state.app.extensions.setdefault("precache_urls", []).append(routes.page_urls)
