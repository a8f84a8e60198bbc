"""The interface for phones: JSON in and out, under /api/."""

from flask import Blueprint

from webapp.sync import photo_parts, photos, routes, work


def make_blueprint() -> Blueprint:
    blueprint = Blueprint("sync", __name__)
    routes.add_to(blueprint)
    work.add_to(blueprint)
    photos.add_to(blueprint)
    photo_parts.add_to(blueprint)
    return blueprint
