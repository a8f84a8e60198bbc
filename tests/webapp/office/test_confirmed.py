"""A signature that a passkey confirmed says so at the record and on its certificate; another one does not."""

from io import BytesIO

import pytest
from pypdf import PdfReader

from tests.authenticator import Authenticator, base64url
from tests.phone import sha256
from webapp.passkeys import Place, creation_options, verify_new
from webapp.receiving import receive_decision, receive_record

PLACE = Place.of("https://water.example")
WORDS = "Confirmed with a passkey"


@pytest.fixture
def record(store, phone, desk, unit):
    """Signed with a passkey, accepted with the password."""
    passkey = Authenticator("https://water.example", "water.example")
    made = verify_new(PLACE, "abcd", passkey.make(creation_options(PLACE, phone.person, "abcd", [])))
    store.passkeys.add(made.id, phone.person.id, "phone", made.public_key, made.counter)
    visit = phone.start(unit)
    content = phone.record(visit, phone.entries(visit.id))
    assertion = passkey.confirm(base64url(bytes.fromhex(sha256(content))))
    text = phone.sign(content, "firstwater-record+jws")
    answer = receive_record(store, text, phone.person, assertion, PLACE)
    receive_decision(store, desk.signed_decision(answer.sha256), desk.person, 12)
    return answer.sha256


def test_the_confirmed_signature_says_so_and_the_other_does_not(sign_in, record):
    client = sign_in("quality")
    page = client.get(f"/office/records/{record}").text
    assert page.count(WORDS) == 1
    assert page.index("Ilse Brook</strong>") < page.index(WORDS) < page.index("Sami Weir</strong>")
    pdf = PdfReader(BytesIO(client.get(f"/office/records/{record}/certificate.pdf").data))
    text = " ".join(" ".join(one.extract_text() for one in pdf.pages).split())
    assert text.count(WORDS) == 1
