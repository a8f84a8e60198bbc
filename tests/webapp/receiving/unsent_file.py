"""The file of unsent entries as docs/api.md describes it, written by hand and sealed with joserfc."""

import base64
import hashlib
import io
import json
from typing import Any

from PIL import Image

from tests.phone import Phone, sha256

KINDS = ("visits", "events", "records", "photos")


def jpeg(colour: str = "teal") -> bytes:
    data = io.BytesIO()
    Image.new("RGB", (16, 12), colour).save(data, "JPEG")
    return data.getvalue()


def hashed(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()


def visit_of(phone: Phone, visit: Any) -> dict[str, Any]:
    return {**visit.as_json(), "problem": None}


def contents(phone: Phone, visits=(), events=(), records=(), photos=(), **changes: Any) -> dict[str, Any]:
    """``visits`` as the phone keeps them, events, JWS texts, and (visit, bytes) of photos."""
    person = {name: getattr(phone.person, name) for name in ("id", "name", "role")}
    file: dict[str, Any] = {"type": "firstwater-unsent", "schema": 1, "made_at": "2026-11-25T09:00:00.000Z"}
    file |= {"app": "trial", "person": person, "device": phone.thumbprint, "visits": list(visits)}
    file["events"] = [{"event": event, "problem": None} for event in events]
    file["records"] = [{"jws": text, "problem": None} for text in records]
    file["photos"] = [
        {
            "sha256": hashed(data),
            "visit": visit,
            "type": "image/jpeg",
            "base64": base64.b64encode(data).decode(),
        }
        for visit, data in photos
    ]
    return file | changes


def written(file: dict[str, Any], phone: Phone | None = None) -> dict[str, Any]:
    """The file with its hash, and with a seal when a phone is given."""
    whole = {**file, "sha256": sha256(file)}
    if phone is None:
        return whole
    seal: dict[str, Any] = {"type": "firstwater-seal", "schema": 1, "sha256": whole["sha256"]}
    seal["visits"] = {one["id"]: sha256(one) for one in file["visits"]}
    seal["events"] = {one["event"]["id"]: sha256(one["event"]) for one in file["events"]}
    seal["photos"] = [one["sha256"] for one in file["photos"]]
    seal["records"] = [hashed(one["jws"].encode()) for one in file["records"]]
    seal |= {name: value for name, value in phone.signature("-").items() if name in SIGNED}
    return {**whole, "seal": phone.sign(seal, "firstwater-seal+jws")}


SIGNED = ("signer", "device", "signed_at")


def as_bytes(file: dict[str, Any]) -> bytes:
    return json.dumps(file).encode()
