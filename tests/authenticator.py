"""An authenticator as W3C Web Authentication, level 2 describes it, made with cryptography and cbor2.

It holds one passkey and answers what a browser would pass on, not by our own code.
"""

import base64
import hashlib
import json
import secrets
from typing import Any

import cbor2
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec

PRESENT, VERIFIED, ATTESTED = 0x01, 0x04, 0x40


def base64url(data: bytes) -> str:
    return base64.urlsafe_b64encode(data).rstrip(b"=").decode()


class Authenticator:
    """``counter`` is None for a passkey that is kept on several devices: it then always says zero."""

    def __init__(
        self, origin: str = "http://localhost", rp_id: str = "localhost", counter: int | None = None
    ):
        self.origin = origin
        self.rp_id = rp_id
        self.counter = counter
        self.key = ec.generate_private_key(ec.SECP256R1())
        self.id = secrets.token_bytes(32)
        self.handle: bytes | None = None

    def client_data(self, kind: str, challenge: str, /, **changes: Any) -> bytes:
        content = {"type": kind, "challenge": challenge, "origin": self.origin, "crossOrigin": False}
        return json.dumps(content | changes).encode()

    def data(self, flags: int) -> bytes:
        if self.counter is not None:
            self.counter += 1
        count = (self.counter or 0).to_bytes(4, "big")
        return hashlib.sha256(self.rp_id.encode()).digest() + bytes([flags]) + count

    def make(self, options: dict[str, Any]) -> dict[str, str]:
        """Answer ``PublicKeyCredentialCreationOptions`` (JSON) with a new credential, attestation "none"."""
        handle = options["user"]["id"]
        self.handle = base64.urlsafe_b64decode(handle + "=" * (-len(handle) % 4))
        numbers = self.key.public_key().public_numbers()
        # RFC 9053: key type EC2, algorithm ES256, curve P-256, then the point.
        cose = {1: 2, 3: -7, -1: 1, -2: numbers.x.to_bytes(32, "big"), -3: numbers.y.to_bytes(32, "big")}
        credential = bytes(16) + len(self.id).to_bytes(2, "big") + self.id + cbor2.dumps(cose)
        data = self.data(PRESENT | VERIFIED | ATTESTED) + credential
        attestation = cbor2.dumps({"fmt": "none", "attStmt": {}, "authData": data})
        client_data = self.client_data("webauthn.create", options["challenge"])
        return {
            "id": base64url(self.id),
            "clientDataJSON": base64url(client_data),
            "attestationObject": base64url(attestation),
        }

    def confirm(self, challenge: str, /, flags: int = PRESENT | VERIFIED, **changes: Any) -> dict[str, Any]:
        """Answer a challenge (base64url); ``changes`` replace members of the client data."""
        client_data, data = self.client_data("webauthn.get", challenge, **changes), self.data(flags)
        signed = data + hashlib.sha256(client_data).digest()
        return {
            "id": base64url(self.id),
            "clientDataJSON": base64url(client_data),
            "authenticatorData": base64url(data),
            "signature": base64url(self.key.sign(signed, ec.ECDSA(hashes.SHA256()))),
            "userHandle": base64url(self.handle) if self.handle else None,
        }
