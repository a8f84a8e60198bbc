from flask import Blueprint


def make_blueprint() -> Blueprint:
    return Blueprint("accounts", __name__, template_folder="templates")
