"""Hashing passwords, and the rules for a good one."""

import re
import secrets
import unicodedata

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError

from webapp.language import _
from webapp.store import Person, Store
from webapp.store.short_code import SIGNS

# Above the least that OWASP's Password Storage Cheat Sheet asks for argon2id (47104 KiB once): twice over it.
HASHER = PasswordHasher(time_cost=2, memory_cost=47104, parallelism=1)

SHORTEST = 12
LONGEST = 200
FEWEST_SIGNS = 5

# What zxcvbn calls very unguessable: a thief of the hashes would need years for one of them.
FEWEST_GUESSES = 10**10
EXAMINED = 72  # signs; the estimate takes long for longer ones
OWN_WORDS = ("firstwater", "commissioning", "water", "purified", "installer", "supervisor", "password")

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


def weakness(password: str, person: Person | None = None, place: str = "") -> str | None:
    """What is wrong with a new password, or None; no rules about kinds of signs (NIST SP 800-63B).

    ``place`` is the server's address, whose words are among the first that are guessed.
    """
    password = unicodedata.normalize("NFC", password)
    if len(password) < SHORTEST:
        return _(
            "Choose a password of at least {shortest} characters, for example four words.", shortest=SHORTEST
        )
    if len(password) > LONGEST:
        return _("Choose a password of at most {longest} characters.", longest=LONGEST)
    if len(set(password)) < FEWEST_SIGNS:
        return _(
            "Choose a password with at least {fewest_signs} different characters.", fewest_signs=FEWEST_SIGNS
        )
    if person and any(word.casefold() in password.casefold() for word in (person.login, person.name) if word):
        return _("Choose a password without your own name in it.")
    if guesses(password, [*own_words(person), *re.findall(r"\w{3,}", place)]) < FEWEST_GUESSES:
        return _(
            "This password is among those that are guessed first. Choose one of several unrelated words."
        )
    return None


def own_words(person: Person | None) -> list[str]:
    return list(OWN_WORDS) + (re.findall(r"\w{3,}", f"{person.login} {person.name}") if person else [])


def guesses(password: str, words: list[str]) -> float:
    """How many guesses it takes, by lists of leaked passwords, names, words, keyboard rows and dates.

    Wheeler, zxcvbn: Low-Budget Password Strength Estimation, USENIX Security 2016.
    """
    from zxcvbn import zxcvbn  # its lists take a fifth of a second to load, which only this needs

    return float(zxcvbn(password[:EXAMINED], user_inputs=words)["guesses"])


def one_time_password() -> str:
    """Sixteen random signs that do not look alike, in groups: about 72 bits."""
    groups = ("".join(secrets.choice(SIGNS) for _ in range(4)) for _ in range(ONE_TIME_GROUPS))
    return "-".join(groups)
