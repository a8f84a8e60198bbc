"""How much one person may ask of the server: a long day's work at once, then a steady rate.

Kept in the memory of the process: counting costs no write, and a restart forgives everything. A call beyond
the limit answers 429 with Retry-After; a phone waits so long and sends again, so that nothing is lost by it.
Guesses of passwords are another matter, see :mod:`webapp.throttle`.
"""

import logging
import time
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import ceil
from threading import Lock

from flask import Flask, current_app, request

from webapp import current
from webapp.problems import Problem
from webapp.rights import declared_right

log = logging.getLogger(__name__)

NAME = "limits"
PIECE = 256 * 1024  # bytes of a body that cost as much as one call
MOST_KNOWN = 10_000  # of people and addresses; beyond, those who asked the longest ago are forgiven


@dataclass(frozen=True)
class Allowance:
    """So many calls at once, and so many more in each minute that follows."""

    at_once: float
    a_minute: float


def allowances(calls_per_minute: int) -> dict[str, Allowance]:
    """What each purse holds; ``calls`` is that of all calls of a signed-in person."""
    return {
        "calls": Allowance(2.5 * calls_per_minute, calls_per_minute),
        "papers": Allowance(30, 12),  # a certificate is set anew each time
        "files": Allowance(12, 6),  # a file of unsent entries is gone through as a whole
        "strangers": Allowance(120, 60),  # from one address, at the pages behind labels
        "sign_ins": Allowance(60, 30),  # from one address, right or wrong: each computes a hash
        "sums": Allowance(600, 300),  # from one address, in the calculator
    }


# What a call costs beside the one call that it is: the purse, by endpoint and method.
DEAR = {
    ("office.certificate", "GET"): "papers",
    ("office.hand_in", "POST"): "files",
    ("office.handed_in", "GET"): "files",
    ("office.take_in", "POST"): "files",
}
OPEN = {
    ("units.public_unit", "GET"): "strangers",
    ("accounts.sign_in", "POST"): "sign_ins",
    ("accounts.sign_in_with_passkey", "POST"): "sign_ins",
    ("calculator.formula", "GET"): "sums",
}
COSTS = {"sync.work": 20, "sync.units": 20}  # in calls: everything that a phone needs


class Limits:
    """Purses that fill by themselves. ``now`` gives seconds; it need not be the time of day."""

    def __init__(self, allowances: Mapping[str, Allowance], now: Callable[[], float] = time.monotonic):
        self.allowances = allowances
        self.now = now
        self.left: dict[tuple[str, str], tuple[float, float]] = {}  # how much, and when that was
        self.lock = Lock()

    def spend(self, purse: str, who: str, cost: float = 1) -> int:
        """Take ``cost`` out, or leave everything and give the seconds until there is enough."""
        allowance = self.allowances[purse]
        cost = min(cost, allowance.at_once)  # otherwise there would never be enough
        with self.lock:
            left, now = self.filled(purse, who), self.now()
            lacking = cost - left
            self.left[purse, who] = (left if lacking > 0 else left - cost, now)
            if len(self.left) > MOST_KNOWN:
                self.forget_half()
        return ceil(max(1.0, lacking * 60 / allowance.a_minute)) if lacking > 0 else 0

    def filled(self, purse: str, who: str) -> float:
        allowance = self.allowances[purse]
        left, then = self.left.get((purse, who), (allowance.at_once, self.now()))
        passed = max(0.0, self.now() - then)
        return min(allowance.at_once, left + passed * allowance.a_minute / 60)

    def forget_half(self) -> None:
        newest = sorted(self.left, key=lambda key: self.left[key][1])[MOST_KNOWN // 2 :]
        self.left = {key: self.left[key] for key in newest}


def install(app: Flask, calls_per_minute: int) -> None:
    """Let ``app`` count its calls; 0 switches all limits off. Runs after the check of rights."""
    if calls_per_minute:
        app.extensions[NAME] = Limits(allowances(calls_per_minute))
        app.before_request(guard)


def guard() -> None:
    """Runs before every request that its sender has the right to make."""
    if request.endpoint is None:
        return
    call = (request.endpoint, "GET" if request.method == "HEAD" else request.method)
    if declared_right(request.endpoint) == "anyone":
        if call in OPEN:
            spend(OPEN[call], request.remote_addr or "")
        return
    person = current.person()
    if person is not None:
        spend("calls", person.id, COSTS.get(request.endpoint, 1) + (request.content_length or 0) // PIECE)
        if call in DEAR:
            spend(DEAR[call], person.id)


def spend_more(calls: int) -> None:
    """A view found that the call stands for more of them; does nothing where there are no limits."""
    person = current.person()
    if person is not None and calls > 0 and NAME in current_app.extensions:
        spend("calls", person.id, calls)


def spend(purse: str, who: str, cost: float = 1) -> None:
    wait = current_app.extensions[NAME].spend(purse, who, cost)
    if wait:
        log.warning("%s %s: too many (%s) from %s", request.method, request.endpoint, purse, who)
        problem = Problem(429, "too_many_calls", seconds=wait)
        problem.headers["Retry-After"] = str(wait)
        raise problem
