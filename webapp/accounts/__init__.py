"""Signing in and out, one's own account and devices, and the administration of people."""

from flask import Blueprint

from webapp.accounts import devices, people, routes


def make_blueprint() -> Blueprint:
    blueprint = Blueprint("accounts", __name__, template_folder="templates")
    routes.add_to(blueprint)
    devices.add_to(blueprint)
    people.add_to(blueprint)
    return blueprint
