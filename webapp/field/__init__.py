from flask import Blueprint


def make_blueprint() -> Blueprint:
    return Blueprint("field", __name__, template_folder="templates")
