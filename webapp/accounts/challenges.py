"""Challenges for passkeys: bound to the session, for one purpose, used once, five minutes long."""

from datetime import datetime, timedelta

from flask import session

from webapp import current
from webapp.passkeys import new_challenge
from webapp.problems import Problem
from webapp.store.table import written

PLACE = "challenge"
LIFE = timedelta(minutes=5)
REMEMBERED = timedelta(hours=1)  # longer than the life, so that none can be used again while it is valid


def give_challenge(purpose: str) -> str:
    """A new challenge in base64url; it replaces the one that was given before."""
    value = new_challenge()
    session[PLACE] = {"value": value, "purpose": purpose, "at": written(current.clock())}
    return value


def take_challenge(purpose: str) -> str:
    """The challenge of this session. A copy of the cookie does not bring it back: the store remembers it."""
    given = session.pop(PLACE, None)
    now = current.clock()
    if given is None or given["purpose"] != purpose or now - datetime.fromisoformat(given["at"]) > LIFE:
        raise Problem(400, "challenge_old")
    if not current.store().passkeys.use_challenge(given["value"], now - REMEMBERED):
        raise Problem(400, "challenge_old")
    return given["value"]
