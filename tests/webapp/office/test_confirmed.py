"""A signature that a passkey confirmed says so at the record and on its certificate; another one does not.

The certificate carries the passkey's answer, so that a reader need not believe the words.
"""

import json
from io import BytesIO

import pytest
from pypdf import PdfReader, PdfWriter

from tests.authenticator import Authenticator, base64url
from tests.phone import PROCEDURE, Phone, named, sha256
from webapp.commands.documents import Documents
from webapp.commands.files import add_file
from webapp.commands.group import BadInput
from webapp.commands.verdicts import Verified, verify_all
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


@pytest.fixture
def certificate(sign_in, record) -> dict[str, bytes]:
    """What is attached to it, by name."""
    pdf = sign_in("quality").get(f"/office/records/{record}/certificate.pdf").data
    return {one.name: bytes(one.content) for one in PdfReader(BytesIO(pdf)).attachment_list}


@pytest.fixture
def verify(tmp_path):
    """The record and the decision of a certificate with these attachments, verified as a stranger would."""

    def verified(attached: dict[str, bytes]) -> list[Verified]:
        writer = PdfWriter()
        writer.add_blank_page(100, 100)
        for name, content in attached.items():
            writer.add_attachment(name, content)
        writer.write(tmp_path / "certificate.pdf")
        documents = Documents(procedures={named(PROCEDURE)["hash"]: PROCEDURE})
        add_file(documents, str(tmp_path / "certificate.pdf"))
        return [one for one in verify_all(documents) if one.kind in {"record", "decision"}]

    return verified


def test_the_certificate_carries_what_verifies_the_confirmation(certificate, verify, record) -> None:
    signed, decided = verify(certificate)
    assert (signed.sha256, signed.valid, signed.is_confirmed) == (record, True, True)
    assert (decided.valid, decided.is_confirmed) == (True, False)
    assert "Confirmed with a passkey of the signer at https://water.example." in signed.notes
    del certificate["confirmations.json"]  # as certificates were before
    assert [(one.valid, one.is_confirmed) for one in verify(certificate)] == [(True, False)] * 2


def of_another_record(evidence: dict, desk: Phone) -> None:
    challenge = base64url(bytes(32))
    evidence["confirmations"][0]["assertion"] |= Authenticator().confirm(challenge) | {
        "id": evidence["passkeys"][0]["id"]
    }


def of_another_person(evidence: dict, desk: Phone) -> None:
    evidence["passkeys"][0]["person"] = desk.person.id


@pytest.mark.parametrize(
    ("change", "code"),
    [(of_another_record, "assertion_invalid"), (of_another_person, "assertion_unknown")],
)
def test_a_confirmation_that_does_not_hold_is_found_in_the_certificate(
    certificate, verify, desk, change, code
) -> None:
    evidence = json.loads(certificate["confirmations.json"])
    change(evidence, desk)
    signed, _ = verify(certificate | {"confirmations.json": json.dumps(evidence).encode()})
    assert ([one.code for one in signed.findings], signed.is_confirmed) == ([code], False)


def test_damaged_confirmations_are_named(certificate, verify) -> None:
    with pytest.raises(BadInput, match=r"certificate\.pdf#confirmations\.json: is damaged"):
        verify(certificate | {"confirmations.json": b'{"confirmations": [{}], "passkeys": []}'})
