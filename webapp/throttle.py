"""Slowing down guesses: the wait doubles with each failure and ends by itself.

Failures are counted per account and per address. A browser in which the account has signed in before is
counted by itself instead of with the account: whoever guesses elsewhere cannot keep the owner out.
"""

from datetime import timedelta
from hashlib import sha256
from math import ceil

from webapp.store import Store

FREE_PER_ACCOUNT = 3  # slips of the finger
FREE_PER_ADDRESS = 20  # a whole office may share one
LONGEST_WAIT = 15 * 60
FORGOTTEN_AFTER = timedelta(days=1)


def keys(login: str, address: str, browser: str | None = None) -> tuple[str, str]:
    """The login as a hash: now and then somebody types a password into its field."""
    if browser is not None:
        return f"browser:{sha256(browser.encode()).hexdigest()}", f"address:{address}"
    return f"account:{sha256(login.strip().casefold().encode()).hexdigest()}", f"address:{address}"


def wait_after(failures: int, free: int) -> int:
    """Seconds to wait after so many failures: 0 while they are free, then 1, 2, 4 ... up to 15 minutes."""
    beyond = failures - free
    return 0 if beyond <= 0 else min(2 ** min(beyond - 1, 20), LONGEST_WAIT)


def begin_attempt(store: Store, login: str, address: str, browser: str | None = None) -> int:
    """Seconds that are still to wait, or 0: the attempt may be made and counts as failed until it succeeds.

    It is counted beforehand, so that many attempts at once are not all free.
    """
    account, place = keys(login, address, browser)
    return begin(store, {account: FREE_PER_ACCOUNT, place: FREE_PER_ADDRESS})


def begin_without_account(store: Store, address: str) -> int:
    """The same for a passkey: whose account is meant shows only when it verifies."""
    return begin(store, {f"address:{address}": FREE_PER_ADDRESS})


def begin(store: Store, free: dict[str, int]) -> int:
    with store.transaction():
        wait = max(left(store, key, number) for key, number in free.items())
        if wait == 0:
            store.failures.forget_before(store.clock() - FORGOTTEN_AFTER)
            store.failures.add(*free)
    return wait


def left(store: Store, key: str, free: int) -> int:
    found = store.failures.of(key)
    if found is None:
        return 0
    count, last = found
    passed = (store.clock() - last).total_seconds()
    return max(0, ceil(wait_after(count, free) - passed))


def succeeded(store: Store, login: str, address: str, browser: str | None = None) -> None:
    """The account's failures are forgotten, the address's are not.

    Otherwise an account of one's own, used in between, would make guesses at others free.
    """
    account, place = keys(login, address, browser)
    with store.transaction():
        store.failures.forget(account)
        store.failures.take_back(place)


def succeeded_without_account(store: Store, address: str) -> None:
    store.failures.take_back(f"address:{address}")
