"""One person cannot take the whole server: beyond a day's work at once, calls are told to come later."""

from dataclasses import replace
from pathlib import Path

import pytest

from tests.conftest import Clock
from tests.webapp.receiving.unsent_file import hashed, jpeg
from webapp import create_app, limits
from webapp.limits import PIECE, Allowance, Limits, allowances
from webapp.settings import Settings

DAYLONG = 100 * 4 + 500 // 100 + 20  # calls of a phone with 100 photos in four parts, 500 entries, 20 records


class Seconds:
    def __init__(self) -> None:
        self.now = 0.0

    def __call__(self) -> float:
        return self.now


@pytest.fixture
def seconds() -> Seconds:
    return Seconds()


@pytest.fixture
def purses(seconds) -> Limits:
    return Limits({"calls": Allowance(at_once=3, a_minute=60)}, seconds)


def test_what_is_spent_comes_back_with_time_and_never_more(purses, seconds) -> None:
    assert [purses.spend("calls", "ilse") for _ in range(4)] == [0, 0, 0, 1]
    seconds.now += 1.5
    assert [purses.spend("calls", "ilse") for _ in range(2)] == [0, 1]
    seconds.now += 3600
    assert [purses.spend("calls", "ilse") for _ in range(4)] == [0, 0, 0, 1]


def test_who_waits_as_told_may_go_on_and_a_refusal_costs_nothing(purses, seconds) -> None:
    assert purses.spend("calls", "ilse", 3) == 0
    for _ in range(50):
        wait = purses.spend("calls", "ilse", 2)
    assert wait == 2
    seconds.now += wait
    assert purses.spend("calls", "ilse", 2) == 0


def test_everybody_has_a_purse_of_their_own(purses) -> None:
    assert purses.spend("calls", "ilse", 3) == 0
    assert purses.spend("calls", "ivor", 3) == 0


def test_what_costs_more_than_a_purse_holds_is_not_refused_for_ever(purses) -> None:
    assert purses.spend("calls", "ilse", 1000) == 0
    assert purses.spend("calls", "ilse", 1000) == 3


def test_a_clock_that_is_set_back_locks_nobody_out(purses, seconds) -> None:
    purses.spend("calls", "ilse", 3)
    seconds.now -= 3600
    assert purses.spend("calls", "ilse") == 1
    seconds.now += 1
    assert purses.spend("calls", "ilse") == 0


def test_however_many_strangers_ask_the_memory_is_bounded(purses, seconds, monkeypatch) -> None:
    monkeypatch.setattr(limits, "MOST_KNOWN", 100)
    for number in range(1000):
        seconds.now += 0.001
        purses.spend("calls", f"address {number}")
        purses.spend("calls", "ilse")
    assert len(purses.left) <= 101
    assert purses.spend("calls", "ilse") > 0, "who asks all the time is not forgotten"


def test_a_long_day_without_signal_is_sent_at_once() -> None:
    """With the limits as they are by default."""
    usual = allowances(Settings.for_tests(Path("unused")).calls_per_minute)
    assert usual["calls"].at_once > 2 * DAYLONG * (1 + 1)  # a part of a photo costs two


# ---- in the application


@pytest.fixture
def hold(app, seconds):
    """`hold(calls=2)`: so many at once, one a second after that; the time is this test's."""

    def held(**at_once: float) -> None:
        made = {name: Allowance(at_once.get(name, 1000), 60) for name in allowances(60)}
        app.extensions[limits.NAME] = Limits(made, seconds)

    return held


def test_a_phone_is_told_when_to_come_back(sign_in, hold, seconds) -> None:
    phone = sign_in("installer")
    token = phone.token()
    hold(calls=2)

    def send():
        return phone.post("/api/events", json={"events": []}, headers={"X-CSRFToken": token})

    assert [send().status_code for _ in range(2)] == [200, 200]
    refused = send()
    assert (refused.status_code, refused.json["code"]) == (429, "too_many_calls")
    assert refused.headers["Retry-After"] == "1"
    assert "nothing on this phone is lost" in refused.json["detail"]
    seconds.now += 1
    assert send().status_code == 200


def test_it_counts_by_person_and_not_by_session(sign_in, hold) -> None:
    phone, desk, other = sign_in("installer"), sign_in("installer"), sign_in("supervisor")
    hold(calls=1)
    assert phone.get("/api/session").status_code == 200
    assert desk.get("/account").status_code == 429
    assert "Wait 1 s" in desk.get("/account").text
    assert other.get("/account").status_code == 200


def test_what_the_rights_refuse_and_what_is_the_same_for_all_costs_nothing(sign_in, client, hold) -> None:
    phone = sign_in("installer")
    hold(calls=1)
    for path, status in (("/people", 403), ("/field", 200), ("/sw.js", 200), ("/nowhere", 404)):
        assert phone.get(path).status_code == status
    assert client.get("/account").status_code == 303
    assert phone.get("/api/session").status_code == 200


def test_a_large_body_costs_as_many_calls_as_it_has_pieces(sign_in, hold) -> None:
    phone = sign_in("installer")
    token = phone.token()
    photo = jpeg() + bytes(3 * PIECE)
    hold(calls=5)
    for status in (200, 429):
        answer = phone.put(
            f"/api/photos/{hashed(photo)}",
            data=photo,
            content_type="image/jpeg",
            headers={"X-CSRFToken": token},
        )
        assert answer.status_code == status


@pytest.mark.parametrize(
    ("purse", "method", "path"),
    [
        ("papers", "GET", f"/office/records/{'0' * 64}/certificate.pdf"),
        ("files", "POST", "/office/import"),
        ("files", "GET", "/office/import/x"),
        ("files", "POST", "/office/import/x"),
    ],
)
def test_what_takes_long_has_a_smaller_limit(sign_in, hold, purse, method, path) -> None:
    supervisor = sign_in("supervisor")
    hold(**{purse: 1})
    statuses = [supervisor.open(path, method=method).status_code for _ in range(2)]
    assert statuses[0] in {400, 404}
    assert statuses[1] == 429
    assert supervisor.get("/account").status_code == 200


def test_strangers_are_counted_by_address(client, unit, hold) -> None:
    hold(strangers=2, sign_ins=1)

    def look(address: str) -> int:
        return client.get(f"/u/{unit.token}", environ_overrides={"REMOTE_ADDR": address}).status_code

    assert [look("192.0.2.1") for _ in range(3)] == [200, 200, 429]
    assert look("192.0.2.2") == 200
    assert [client.post("/sign-in").status_code for _ in range(2)] == [400, 429]
    assert client.get("/sign-in").status_code == 200


def test_every_priced_call_is_a_call_of_the_application(app) -> None:
    there = {(rule.endpoint, method) for rule in app.url_map.iter_rules() for method in rule.methods}
    assert {*limits.DEAR, *limits.OPEN} <= there
    assert set(limits.COSTS) <= {endpoint for endpoint, _ in there}
    assert {*limits.DEAR.values(), *limits.OPEN.values(), "calls"} == set(allowances(1))


def test_the_limits_can_be_switched_off(settings: Settings, clock: Clock, tmp_path: Path) -> None:
    app = create_app(replace(settings, calls_per_minute=0, database=tmp_path / "free.db"), clock)
    assert limits.NAME not in app.extensions
    assert app.test_client().get("/u/x").status_code == 404
    app.extensions["firstwater"].store.close()
