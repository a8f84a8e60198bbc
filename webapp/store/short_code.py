"""The short code of a unit: what a person can read from a label and type when the camera fails.

Twenty-three signs, a prime number of them, none of which looks like another. The check sign makes the sum of
sign times place divisible by 23: one wrong sign, or two exchanged ones, is always noticed.
"""

import secrets

SIGNS = "23456789ACEFHJKMNPRTWXY"
LENGTH = 8  # seven signs and the check sign


def make() -> str:
    body = "".join(secrets.choice(SIGNS) for _ in range(LENGTH - 1))
    return body + check_sign(body)


def check_sign(body: str) -> str:
    total = sum(place * SIGNS.index(sign) for place, sign in enumerate(body, start=1))
    # LENGTH * check + total must be a multiple of 23.
    return SIGNS[-total * pow(LENGTH, -1, len(SIGNS)) % len(SIGNS)]


def tidy(typed: str) -> str:
    """What was typed, without spaces and hyphens and in capitals."""
    return "".join(sign for sign in typed.upper() if sign not in " -")


def is_valid(code: str) -> bool:
    return len(code) == LENGTH and all(sign in SIGNS for sign in code) and check_sign(code[:-1]) == code[-1]


def grouped(code: str) -> str:
    """As it is printed: two groups of four."""
    return f"{code[:4]}-{code[4:]}"
