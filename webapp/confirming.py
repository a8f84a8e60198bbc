"""A signed-in person confirms what they are about to do: with the password, or with a passkey."""

from flask import request

from webapp import current, passwords, throttle
from webapp.problems import Problem
from webapp.store import Person


def wrong_password(person: Person, password: str) -> Problem | None:
    """Why the password of a signed-in person is not taken, or None.

    Guesses are slowed down as at sign-in, and counted apart: nobody who is not signed in as this person can
    hold them up.
    """
    store, address = current.store(), request.remote_addr or ""
    here = f"signed in as {person.id}"
    wait = throttle.begin_attempt(store, person.login, address, here)
    if wait:
        problem = Problem(429, "too_many_attempts", seconds=wait)
        problem.headers["Retry-After"] = str(wait)
        return problem
    if passwords.check(store, person.login, password) is None:
        store.audit.add("password_wrong", person=person.id, subject=person.id, address=address)
        return Problem(403, "wrong_password", field="password")
    throttle.succeeded(store, person.login, address, here)
    return None
