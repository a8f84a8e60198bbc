from flask import Blueprint

from webapp.office import decision, exports, imports, quarantine, record, reopen, routes


def make_blueprint() -> Blueprint:
    """What waits for a supervisor, the records, decisions about them, and their copies for outside."""
    blueprint = Blueprint("office", __name__, template_folder="templates")
    for part in (routes, record, decision, reopen, exports, imports, quarantine):
        part.add_to(blueprint)
    return blueprint
