"""The pages that an installer fills in: the same for every visit, so that the phone can keep them."""

from flask import Blueprint
from flask.blueprints import BlueprintSetupState

from webapp.field import routes
from webapp.field.modules import modules_of
from webapp.field.wording import unit_label, verdict_word


def make_blueprint() -> Blueprint:
    blueprint = Blueprint("field", __name__, template_folder="templates")
    blueprint.add_app_template_filter(unit_label, "unit")
    blueprint.add_app_template_global(verdict_word)
    blueprint.add_app_template_global(modules_of)
    blueprint.record_once(offer_for_offline_use)
    routes.add_to(blueprint)
    return blueprint


def offer_for_offline_use(state: BlueprintSetupState) -> None:
    state.app.extensions.setdefault("precache_urls", []).append(routes.page_urls)
