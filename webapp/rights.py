"""Who may do what. A view without a declared right answers 403."""

import logging
from collections.abc import Callable
from typing import TypeVar
from urllib.parse import quote

from flask import current_app, redirect, request
from werkzeug.exceptions import Forbidden
from werkzeug.wrappers import Response

from webapp import current
from webapp.language import address, noop
from webapp.problems import Problem
from webapp.store import Person

log = logging.getLogger(__name__)

View = TypeVar("View", bound=Callable)

ROLES = ("installer", "supervisor", "quality", "administrator")

ROLE_RIGHTS: dict[str, frozenset[str]] = {
    "installer": frozenset({"fill"}),
    "supervisor": frozenset({"fill", "countersign", "read", "take_over"}),
    "quality": frozenset({"read"}),
    "administrator": frozenset({"administer", "read", "take_over"}),
}

RIGHTS = frozenset({"anyone", "signed_in"}).union(*ROLE_RIGHTS.values())

OPEN_TO_ONE_TIME_PASSWORDS = {"accounts.new_password", "accounts.sign_out"}


NAVIGATION = (
    ("/field", noop("Work"), "fill"),
    ("/office/", noop("Records"), "read"),
    ("/units", noop("Units"), "signed_in"),
    ("/people", noop("People"), "administer"),
    ("/account", noop("Account"), "signed_in"),
)


def right(name: str) -> Callable[[View], View]:
    """Declare the right that a view needs; stands directly under the route decorator."""
    if name not in RIGHTS:
        raise ValueError(f"There is no right {name!r}. Choose one of {', '.join(sorted(RIGHTS))}.")

    def declare(view: View) -> View:
        view.right = name  # type: ignore[attr-defined]
        return view

    return declare


def declared_right(endpoint: str) -> str | None:
    return getattr(current_app.view_functions[endpoint], "right", None)


def has_right(person: Person | None, name: str | None) -> bool:
    if name == "anyone":
        return True
    if person is None or name is None:
        return False
    return name == "signed_in" or name in ROLE_RIGHTS[person.role]


def guard() -> Response | None:
    """Runs before every request: let it pass, send the person to sign in, or refuse."""
    # No route fits: the answer will be 404 or 405, the same for everybody.
    if request.endpoint is None:
        return None
    name = declared_right(request.endpoint)
    if name == "anyone":
        return None
    person = current.person()
    if person is None and name is not None:
        return ask_to_sign_in()
    if not has_right(person, name):
        log.warning("%s %s refused to person %s", request.method, request.endpoint, person and person.id)
        raise Forbidden
    if person is not None and person.one_time_password:
        return ask_for_new_password()
    return None


def ask_to_sign_in() -> Response:
    if request.path.startswith("/api/"):
        raise Problem(401, "not_signed_in")
    if request.method not in {"GET", "HEAD"}:
        return redirect("/sign-in", 303)
    return redirect("/sign-in?next=" + quote(request.full_path.rstrip("?"), safe="/"), 303)


def ask_for_new_password() -> Response | None:
    if request.endpoint in OPEN_TO_ONE_TIME_PASSWORDS:
        return None
    if request.path.startswith("/api/"):
        raise Problem(403, "new_password_needed")
    return redirect("/account/password", 303)


def navigation(person: Person | None) -> list[dict[str, object]]:
    """The places of the application that ``person`` may enter, the present one marked."""
    if person is None or person.one_time_password:
        return []
    return [
        {
            "url": address(url) if url == "/field" else url,
            "label": label,
            "current": request.path.startswith(url),
        }
        for url, label, needed in NAVIGATION
        if has_right(person, needed)
    ]
