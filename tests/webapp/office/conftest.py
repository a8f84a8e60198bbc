"""Visits that were signed and wait for a decision, and supervisors who can sign one."""

import pytest

from tests.phone import Phone
from webapp import passwords
from webapp.office.offer import MEANINGS, REOPEN_MEANING
from webapp.receiving import receive_record

PASSWORD = "four calm words here"


@pytest.fixture(scope="session")
def hashed():
    return passwords.hash_password(PASSWORD)


@pytest.fixture
def supervisor(store, people, hashed):
    store.people.set_password(people["supervisor"].id, hashed)
    return people["supervisor"]


@pytest.fixture
def waiting(store, unit, phone):
    """A record that passes, signed by the installer; ``waiting("no")`` gives one that fails."""

    def make(tight="yes", by: Phone = phone, **changes):
        visit = by.start(unit)
        text = by.signed_record(visit, by.entries(visit.id, tight), **changes)
        answer = receive_record(store, text, by.person)
        assert answer.state == "signed", answer.reasons
        return store.records.get(answer.sha256)

    return make


@pytest.fixture
def decide(sign_in, supervisor, desk):
    """Send the decision form as the supervisor's browser does: signed, then submitted."""

    def send(record, decision="accepted", reasons="", password=PASSWORD, jws=None, who=None, **signed):
        client = sign_in(who or supervisor)
        if jws is None:
            signed.setdefault("meaning", REOPEN_MEANING if record.decisions else MEANINGS[decision])
            jws = desk.signed_decision(record.sha256, decision, reasons, **signed)
        fields = {"decision": decision, "reasons": reasons, "password": password, "jws": jws}
        return client.press(f"/office/records/{record.sha256}/decision", **fields)

    return send
