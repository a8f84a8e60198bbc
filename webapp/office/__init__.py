from flask import Blueprint


def make_blueprint() -> Blueprint:
    return Blueprint("office", __name__, template_folder="templates")
