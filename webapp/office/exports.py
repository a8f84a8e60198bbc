"""Copies of a record for outside: the certificate, the signed documents, and readable JSON."""

import json
import re
from typing import Any

from flask import Blueprint, Response, abort, make_response

from webapp import current
from webapp.office import papers
from webapp.rights import right
from webapp.store import Record


def add_to(blueprint: Blueprint) -> None:
    blueprint.add_url_rule("/records/<string:sha256>/certificate.pdf", view_func=certificate)
    blueprint.add_url_rule("/records/<string:sha256>/record.jws", view_func=record_jws)
    blueprint.add_url_rule("/records/<string:sha256>/decision.jws", view_func=decision_jws)
    blueprint.add_url_rule("/records/<string:sha256>/reopening.jws", view_func=reopening_jws)
    blueprint.add_url_rule("/records/<string:sha256>/record.json", view_func=record_json)
    blueprint.add_url_rule("/photos/<string:sha256>", view_func=photo)


@right("read")
def certificate(sha256: str) -> Response:
    found = current.store().records.get(sha256)
    return download(papers.certificate_of(found), "application/pdf", name_of(found, "pdf"))


@right("read")
def record_jws(sha256: str) -> Response:
    found = current.store().records.get(sha256)
    return download(found.jws.encode(), "application/jose", name_of(found, "jws"))


@right("read")
def decision_jws(sha256: str) -> Response:
    found = current.store().records.get(sha256)
    if found.decision is None:
        abort(404)
    return download(found.decision.jws.encode(), "application/jose", name_of(found, "decision.jws"))


@right("read")
def reopening_jws(sha256: str) -> Response:
    found = current.store().records.get(sha256)
    if found.reopening is None:
        abort(404)
    return download(found.reopening.jws.encode(), "application/jose", name_of(found, "reopening.jws"))


@right("read")
def record_json(sha256: str) -> Response:
    found = current.store().records.get(sha256)
    content: dict[str, Any] = {"sha256": sha256, "record": found.content()}
    content["decisions"] = [one.content() for one in found.decisions]
    text = json.dumps(content, indent=1, ensure_ascii=False)
    return download(text.encode(), "application/json", name_of(found, "json"))


@right("read")
def photo(sha256: str) -> Response:
    response = make_response(current.store().photos.read_bytes(sha256))
    response.headers["Content-Type"] = "image/jpeg"
    response.headers["Cache-Control"] = "private, max-age=86400, immutable"  # named by its own hash
    return response


def name_of(record: Record, ending: str) -> str:
    """A file name that says unit and day, in plain letters for every system."""
    serial = re.sub("[^0-9A-Za-z]", "-", record.content()["unit"]["serial"])
    return f"{serial}-{record.signed_at[:10]}-{record.sha256[:8]}.{ending}"


def download(content: bytes, kind: str, name: str) -> Response:
    response = make_response(content)
    response.headers["Content-Type"] = kind
    response.headers["Content-Disposition"] = f'attachment; filename="{name}"'
    return response
