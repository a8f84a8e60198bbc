from flask import Blueprint

from webapp.office import decision, exports, quarantine, record, routes


def make_blueprint() -> Blueprint:
    """What waits for a supervisor, the records, decisions about them, and their copies for outside."""
    blueprint = Blueprint("office", __name__, template_folder="templates")
    for part in (routes, record, decision, exports, quarantine):
        part.add_to(blueprint)
    return blueprint
