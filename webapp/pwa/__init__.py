from flask import Blueprint


def make_blueprint() -> Blueprint:
    return Blueprint("pwa", __name__, template_folder="templates")
