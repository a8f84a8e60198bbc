"""The calls as an OpenAPI 3.1 document."""

import json
from typing import Any

from webapp.description.calls import BYTES, CALLS, JPEG, JSON, Call
from webapp.description.schema import schema_of
from webapp.rights import ROLE_RIGHTS
from webapp.sync import answers

WHO = {"anyone": "Anyone.", "signed_in": "Whoever is signed in."}

ABOUT = (
    "What phones send and fetch; docs/api.md says what it means. Everything is JSON but the photos. "
    "Errors are RFC 9457 problems with a stable `code`. This file is made from the shapes that the server "
    "checks with: python -m webapp.generate."
)

EVERY_CALL = {
    400: ("bad_request",),
    405: ("method_not_allowed",),
    429: ("too_many_calls",),
    500: ("server_error",),
    503: ("storage_full", "storage_busy", "storage_failed"),
}


def description() -> dict[str, Any]:
    """The whole document."""
    paths: dict[str, dict[str, Any]] = {}
    for call in CALLS:
        paths.setdefault(call.path, {})[call.method.lower()] = operation(call)
    return {
        "openapi": "3.1.0",
        "info": {"title": "Firstwater, interface for phones", "version": "1", "description": ABOUT},
        "paths": paths,
        "components": {
            "schemas": {"Problem": schema_of(answers.PROBLEM)},
            "securitySchemes": {
                "session": {"type": "apiKey", "in": "cookie", "name": "session"},
                "token": {"type": "apiKey", "in": "header", "name": "X-CSRFToken"},
            },
        },
    }


def text() -> str:
    return json.dumps(description(), indent=1, ensure_ascii=False) + "\n"


def operation(call: Call) -> dict[str, Any]:
    found: dict[str, Any] = {"summary": f"{call.title}.", "description": who_may(call.right)}
    found["security"] = security(call)
    if call.names:
        found["parameters"] = [parameter(*name) for name in call.names]
    if call.body is not None or call.takes:
        found["requestBody"] = body(call)
    found["responses"] = {"200": answer(call)} | {
        str(status): problem(codes) for status, codes in sorted(problems(call).items())
    }
    return found


def who_may(right: str) -> str:
    roles = [role for role, rights in ROLE_RIGHTS.items() if right in rights]
    return WHO.get(right) or f"Roles: {', '.join(roles)}."


def security(call: Call) -> list[dict[str, list]]:
    needed: dict[str, list] = {} if call.right == "anyone" else {"session": []}
    return [needed if call.method == "GET" else {**needed, "token": []}]


def parameter(place: str, name: str, shape: Any) -> dict[str, Any]:
    return {"name": name, "in": place, "required": place != "query", "schema": schema_of(shape)}


def body(call: Call) -> dict[str, Any]:
    limit = f"At most {call.largest} bytes."
    if call.takes:
        return {"required": True, "description": limit, "content": {call.takes: {}}}
    return {"required": True, "description": limit, "content": {JSON: {"schema": schema_of(call.body)}}}


def answer(call: Call) -> dict[str, Any]:
    content = {} if call.gives in (JPEG, BYTES) else {"schema": schema_of(call.answer)}
    return {"description": "Done.", "content": {call.gives: content}}


def problems(call: Call) -> dict[int, tuple[str, ...]]:
    """Codes by status: those of every call, of a missing session or token, and the call's own."""
    found = dict(EVERY_CALL)
    if call.right != "anyone":
        found |= {401: ("not_signed_in",), 403: ("forbidden", "new_password_needed")}
    if call.method != "GET":
        found[400] += ("csrf",)
    for status, codes in call.codes:
        found[status] = found.get(status, ()) + codes
    return found


def problem(codes: tuple[str, ...]) -> dict[str, Any]:
    content = {"application/problem+json": {"schema": {"$ref": "#/components/schemas/Problem"}}}
    return {"description": f"Codes: {', '.join(codes)}.", "content": content}
