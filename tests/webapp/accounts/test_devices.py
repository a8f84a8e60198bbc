"""Enrolling a key."""

from typing import Any

import pytest
from joserfc import jwk

from tests.phone import Phone
from webapp.passwords import hash_password
from webapp.store import Store

PASSWORD = "five bright brass kettles"


class NewPhone(Phone):
    """A phone whose key the server does not know yet."""

    def __init__(self, store: Store, person):
        super().__init__(store, person)
        self.key = jwk.generate_key("EC", "P-256")
        self.public = {name: self.key.as_dict(private=False)[name] for name in ("kty", "crv", "x", "y")}
        self.thumbprint = self.key.thumbprint()

    def proof(self, **changes: Any) -> str:
        content = {"type": "firstwater-device", "person": self.person.id, "at": self.time()} | changes
        return self.sign(content, "firstwater-device+jws")

    def body(self, **changes: Any) -> dict[str, Any]:
        body = {"jwk": self.public, "name": " blue phone ", "password": PASSWORD, "proof": self.proof()}
        return body | changes


@pytest.fixture
def new_phone(store: Store, people) -> NewPhone:
    store.people.set_password(people["installer"].id, hash_password(PASSWORD))
    return NewPhone(store, people["installer"])


@pytest.fixture
def installer(sign_in):
    return sign_in("installer")


def test_a_key_is_enrolled_with_its_proof(installer, new_phone: NewPhone) -> None:
    response = installer.call("POST", "/api/devices", json=new_phone.body())
    assert response.status_code == 200, response.json
    expected = {
        "thumbprint": new_phone.thumbprint,
        "name": "blue phone",
        "enrolled_at": "2026-11-25T09:30:00.000Z",
    }
    assert response.json == expected
    device = new_phone.store.devices.get(new_phone.thumbprint)
    assert (device.person, device.jwk) == (new_phone.person.id, new_phone.public)
    assert new_phone.store.audit.of(device.thumbprint)[0].action == "device_enrolled"
    assert installer.call("POST", "/api/devices", json=new_phone.body()).json == expected


@pytest.mark.parametrize(
    ("change", "status", "code", "field"),
    [
        ({"password": "wrong"}, 403, "wrong_password", "password"),
        ({"proof": "a.b.c"}, 400, "not_a_jws", "proof"),
        ({"jwk": {"kty": "RSA"}}, 400, "key_not_allowed", "proof"),
        ({"name": ""}, 400, "shape", "name"),
        ({"extra": 1}, 400, "shape", "extra"),
    ],
)
def test_what_does_not_fit_is_refused(installer, new_phone: NewPhone, change, status, code, field) -> None:
    response = installer.call("POST", "/api/devices", json=new_phone.body(**change))
    assert (response.status_code, response.json["code"], response.json["field"]) == (status, code, field)
    assert new_phone.store.devices.find(new_phone.thumbprint) is None


@pytest.mark.parametrize(
    "changes",
    [{"person": "somebody"}, {"at": "2026-11-20T09:30:00.000Z"}, {"at": "2026-02-30T09:30:00.000Z"}],
)
def test_a_proof_for_somebody_else_or_of_long_ago_is_refused(installer, new_phone: NewPhone, changes) -> None:
    response = installer.call("POST", "/api/devices", json=new_phone.body(proof=new_phone.proof(**changes)))
    assert (response.status_code, response.json["code"]) == (400, "proof_differs")


def test_a_proof_by_another_key_is_refused(installer, new_phone: NewPhone, phone: Phone) -> None:
    content = {"type": "firstwater-device", "person": phone.person.id, "at": phone.time()}
    proof = phone.sign(content, "firstwater-device+jws")
    response = installer.call("POST", "/api/devices", json=new_phone.body(proof=proof))
    assert (response.status_code, response.json["code"]) == (400, "signature_wrong")


def test_a_private_key_is_refused(installer, new_phone: NewPhone) -> None:
    private = new_phone.key.as_dict(private=True)
    response = installer.call("POST", "/api/devices", json=new_phone.body(jwk=dict(private)))
    assert (response.status_code, response.json["code"]) == (400, "private_key")


def test_the_key_of_a_colleague_is_refused(installer, new_phone: NewPhone, people) -> None:
    new_phone.store.devices.enrol(new_phone.thumbprint, new_phone.public, people["supervisor"].id, "desk")
    response = installer.call("POST", "/api/devices", json=new_phone.body())
    assert (response.status_code, response.json["code"]) == (409, "key_of_another")


def test_guessing_the_password_here_is_slowed_down_too(installer, new_phone: NewPhone) -> None:
    statuses = [
        installer.call("POST", "/api/devices", json=new_phone.body(password="wrong")).status_code
        for _ in range(5)
    ]
    assert statuses == [403, 403, 403, 403, 429]
