"""Results still to come, from the record of the demonstration that waits for its colony count."""

import html

import pytest

from tests.phone import Phone
from webapp.demo import seed
from webapp.office.offer import MEANINGS
from webapp.receiving import receive_decision

# Two days before the clock of the tests, as the scenario says.
COUNT = "Colony count of the bacteria grade (Microbiology sample taken on: 23 November 2026)"


@pytest.fixture
def waiting(store, clock):
    seed(store, clock)
    (listed,) = store.listing.queue()
    return store.records.get(listed.sha256)


@pytest.fixture
def accepted(store, waiting):
    desk = Phone(store, store.people.by_login("ines"))
    decision = "accepted_with_conditions"
    text = desk.signed_decision(waiting.sha256, decision, "Count to follow.", meaning=MEANINGS[decision])
    assert receive_decision(store, text, desk.person, 12).state == decision
    return store.records.get(waiting.sha256)


def read(sign_in, store, login, path):
    return html.unescape(sign_in(store.people.by_login(login)).get(path).text)


def test_a_record_that_waits_says_what_is_still_to_come(sign_in, store, waiting):
    assert f"Still to come: {COUNT}." in read(sign_in, store, "ines", "/office/")


def test_an_accepted_one_leads_the_supervisor_to_the_reopening_and_a_reader_to_the_record(
    sign_in, store, accepted
):
    path = f"/office/records/{accepted.sha256}"
    page = read(sign_in, store, "ines", "/office/")
    assert f"Still to come: {COUNT}." in page
    assert f'href="{path}/reopen"' in page
    page = read(sign_in, store, "rurik", "/office/")
    assert f"Still to come: {COUNT}." in page
    assert f'href="{path}"' in page
    assert "reopen" not in page


def test_the_reason_is_filled_in_for_editing(sign_in, store, accepted):
    page = read(sign_in, store, "ines", f"/office/records/{accepted.sha256}/reopen")
    area = page.split("<textarea")[1].split("</textarea>")[0].split(">", 1)[1]
    assert area.strip() == f"The laboratory's result has come: {COUNT}."
