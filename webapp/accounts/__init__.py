"""Signing in and out, one's own account, passkeys and devices, the administration of people, the trail."""

from flask import Blueprint

from webapp.accounts import devices, passkeys, people, routes, sessions, trail
from webapp.accounts.forms import role_word


def make_blueprint() -> Blueprint:
    blueprint = Blueprint("accounts", __name__, template_folder="templates")
    blueprint.add_app_template_global(role_word)
    routes.add_to(blueprint)
    devices.add_to(blueprint)
    passkeys.add_to(blueprint)
    sessions.add_to(blueprint)
    people.add_to(blueprint)
    trail.add_to(blueprint)
    return blueprint
