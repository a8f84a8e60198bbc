from flask import Blueprint

from webapp.units import instruments, public, routes, sites, take_over


def make_blueprint() -> Blueprint:
    """Units, sites and instruments for those who are signed in; the page behind a label for anyone."""
    blueprint = Blueprint("units", __name__, template_folder="templates")
    for part in (public, routes, sites, instruments, take_over):
        part.add_to(blueprint)
    return blueprint
