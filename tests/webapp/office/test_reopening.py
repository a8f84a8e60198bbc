"""The office's side of a later result: re-opened with a reason, shown as such until it is corrected."""

import io

import pypdf
import pytest

from webapp.office.offer import OPEN_ALREADY, OWN_WORK, REOPEN_MEANING, SUPERSEDED
from webapp.receiving import receive_record

HAS_COME = "The result of the count has come."
AWAITED = "a corrected record is awaited"


@pytest.fixture
def office(sign_in, supervisor):
    return sign_in(supervisor)


@pytest.fixture
def accepted(store, waiting, decide):
    record = waiting()
    decide(record, "accepted_with_conditions", "Count to follow.")
    return store.records.get(record.sha256)


@pytest.fixture
def reopened(store, accepted, decide):
    assert decide(accepted, "returned", HAS_COME).status_code == 303
    return store.records.get(accepted.sha256)


@pytest.fixture
def corrected(store, phone, reopened):
    answer = receive_record(store, phone.signed_record(store.visits.get(reopened.visit)), phone.person)
    assert answer.state == "signed", answer.reasons
    return store.records.get(answer.sha256)


def test_the_page_explains_and_asks_for_reasons_and_a_signature(office, accepted):
    path = f"/office/records/{accepted.sha256}"
    assert f"{path}/reopen" in office.get(path).text
    page = office.get(f"{path}/reopen").text
    for part in ("A signed record is never changed", REOPEN_MEANING, "Sign the decision"):
        assert part in page
    assert 'value="returned"' in page
    assert 'value="accepted"' not in page


def test_missing_reasons_come_back_to_the_same_page(office, accepted, decide, store):
    answer = decide(accepted, "returned", " ")
    assert "Write why the record is re-opened." in answer.text
    assert "A signed record is never changed" in answer.text
    assert store.records.get(accepted.sha256).state == "accepted_with_conditions"


def test_the_label_says_what_it_said_and_the_office_that_a_correction_is_awaited(
    office, client, unit, reopened
):
    public = client.get(f"/u/{unit.token}").text
    assert "Accepted with conditions" in public
    assert "Count to follow." in public
    assert "e-opened" not in public
    for path in (f"/units/{unit.id}", f"/office/records/{reopened.sha256}"):
        page = office.get(path).text
        assert AWAITED in page
        assert HAS_COME in page
        assert page.index("Count to follow.") < page.index(HAS_COME)
    queue = office.get("/office/").text
    assert "A corrected record is awaited" in queue
    assert f"/office/records/{reopened.sha256}" in queue


def test_both_records_stay_and_name_each_other(office, client, unit, reopened, corrected, decide):
    old, new = (f"/office/records/{one.sha256}" for one in (reopened, corrected))
    assert "waits for a decision" in office.get(old).text
    decide(corrected)
    assert "which was accepted" in office.get(old).text
    assert new in office.get(old).text
    assert old in office.get(new).text
    assert AWAITED not in office.get(f"/units/{unit.id}").text
    public = client.get(f"/u/{unit.token}").text
    assert "Accepted" in public
    assert "Count to follow." not in public


def text_of(pdf):
    reader = pypdf.PdfReader(io.BytesIO(pdf))
    return " ".join(" ".join(page.extract_text() for page in reader.pages).split()), reader.attachments


def test_the_certificate_holds_the_acceptance_and_the_reopening(office, reopened, corrected, decide):
    text, attached = text_of(office.get(f"/office/records/{reopened.sha256}/certificate.pdf").data)
    for part in ("certificate, re-opened", "Count to follow.", HAS_COME, "It holds until a corrected record"):
        assert part in text
    assert attached["decision.jws"] == [reopened.decision.jws.encode()]
    assert attached["reopening.jws"] == [reopened.reopening.jws.encode()]
    decide(corrected)
    text, _ = text_of(office.get(f"/office/records/{reopened.sha256}/certificate.pdf").data)
    assert corrected.sha256 in text
    text, attached = text_of(office.get(f"/office/records/{corrected.sha256}/certificate.pdf").data)
    assert reopened.sha256 in text
    assert "reopening.jws" not in attached


def test_the_reopening_can_be_downloaded_once_there_is_one(office, accepted, decide):
    path = f"/office/records/{accepted.sha256}/reopening.jws"
    assert office.get(path).status_code == 404
    decide(accepted, "returned", HAS_COME)
    assert office.get(path).mimetype == "application/jose"


def test_a_record_that_was_reopened_says_so_and_offers_nothing(office, reopened):
    page = office.get(f"/office/records/{reopened.sha256}/reopen").text
    assert OPEN_ALREADY in page
    assert "Sign the decision" not in page


def test_nobody_reopens_a_record_in_which_they_entered_something(sign_in, accepted, store):
    """OWASP ASVS 5.0.0, 2.3.5: the installer has become a supervisor since."""
    store.people.set_role(accepted.person, "supervisor")
    page = sign_in(store.people.get(accepted.person)).get(f"/office/records/{accepted.sha256}/reopen").text
    assert OWN_WORK in page
    assert "Sign the decision" not in page


def test_a_record_with_a_later_one_after_it_is_not_reopened(office, accepted, waiting, decide):
    decide(waiting())
    assert SUPERSEDED in office.get(f"/office/records/{accepted.sha256}/reopen").text


def test_a_record_that_waits_is_decided_on_its_own_page(office, waiting):
    page = office.get(f"/office/records/{waiting().sha256}/reopen")
    assert page.status_code == 404


@pytest.mark.parametrize("role", ["installer", "quality", "administrator"])
def test_only_a_supervisor_reopens(sign_in, accepted, role):
    assert sign_in(role).get(f"/office/records/{accepted.sha256}/reopen").status_code == 403
    assert f"{accepted.sha256}/reopen" not in sign_in("quality").get("/office/").text
