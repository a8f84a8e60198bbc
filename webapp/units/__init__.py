from flask import Blueprint


def make_blueprint() -> Blueprint:
    return Blueprint("units", __name__, template_folder="templates")
