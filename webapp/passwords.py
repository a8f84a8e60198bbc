"""Hashing passwords, and the rules for a good one."""

import secrets
import unicodedata

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError

from webapp.store import Person, Store
from webapp.store.short_code import SIGNS

# Above the least that OWASP's Password Storage Cheat Sheet asks for argon2id (47104 KiB once): twice over it.
HASHER = PasswordHasher(time_cost=2, memory_cost=47104, parallelism=1)

SHORTEST = 12
LONGEST = 200
FEWEST_SIGNS = 5

ONE_TIME_GROUPS = 4
ONE_TIME_DAYS = 7


def prepared(password: str) -> bytes:
    """The same bytes however a keyboard composed the letters; the phone does likewise."""
    return unicodedata.normalize("NFC", password).encode()


def hash_password(password: str) -> str:
    return HASHER.hash(prepared(password))


# What an unknown login is compared with, so that the answer takes as long as for a known one.
NOBODY = hash_password(secrets.token_urlsafe(32))


def fits(hashed: str, password: str) -> bool:
    try:
        return HASHER.verify(hashed, prepared(password))
    except (VerificationError, InvalidHashError):
        return False


def check(store: Store, login: str, password: str) -> Person | None:
    """The active person with this login and password. A hash made with older parameters is renewed."""
    person = store.people.by_login(login)
    kept = store.people.password(person.id) if person else None
    is_right = fits(kept.hash if kept else NOBODY, password)
    if person is None or kept is None or not person.active or not is_right:
        return None
    if kept.until is not None and kept.until < store.people.now():
        return None
    if HASHER.check_needs_rehash(kept.hash):
        store.people.set_password(person.id, hash_password(password), kept.until)
    return person


def weakness(password: str, person: Person | None = None) -> str | None:
    """What is wrong with a new password, or None; no rules about kinds of signs (NIST SP 800-63B)."""
    if len(password) < SHORTEST:
        return f"Choose a password of at least {SHORTEST} characters, for example four words."
    if len(password) > LONGEST:
        return f"Choose a password of at most {LONGEST} characters."
    if len(set(password)) < FEWEST_SIGNS:
        return f"Choose a password with at least {FEWEST_SIGNS} different characters."
    if person and any(word.casefold() in password.casefold() for word in (person.login, person.name) if word):
        return "Choose a password without your own name in it."
    return None


def one_time_password() -> str:
    """Sixteen random signs that do not look alike, in groups: about 72 bits."""
    groups = ("".join(secrets.choice(SIGNS) for _ in range(4)) for _ in range(ONE_TIME_GROUPS))
    return "-".join(groups)
