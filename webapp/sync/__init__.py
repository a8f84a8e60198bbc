from flask import Blueprint


def make_blueprint() -> Blueprint:
    return Blueprint("sync", __name__, template_folder="templates")
