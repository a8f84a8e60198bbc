"""What phones are answered, in the language of :mod:`webapp.signing.shapes`.

The description of the interface is made from these, and a test holds every answer against them.
"""

from webapp.signing.shapes import (
    EVENT,
    INSTANT,
    KEY,
    NAME,
    PROCEDURE,
    SENTENCE,
    SHA256,
    THUMBPRINT,
    UUID,
    Map,
    Optional,
    Text,
    Words,
)

NULL = type(None)
ANY_TEXT = Text("a text", 100_000)
NUMBER = (int, float)
PERSON = {"id": KEY, "name": NAME, "role": KEY}

VISIT = {
    "id": UUID,
    "unit": KEY,
    "kind": KEY,
    "procedure": PROCEDURE,
    "state": Words(("draft", "signed", "accepted", "returned", "quarantined")),
    "started_at": INSTANT,
    "started_by": KEY,
    "record": (SHA256, NULL),
    "returned": ({"reasons": ANY_TEXT, "by": KEY, "at": INSTANT}, NULL),
}
LAST_VISIT = {"record": SHA256, "at": INSTANT, "values": Map(dict)}
UNIT = {
    "id": KEY,
    "name": NAME,
    "serial": NAME,
    "site": KEY,
    "plate": Map(dict),
    "short_code": Text("a short code", 40),
    "label": SHA256,
    "previous": (SHA256, NULL),
    "baseline": Optional({"record": (SHA256, NULL), "values": Map(dict), "last": (LAST_VISIT, NULL)}),
}
INSTRUMENT = {
    "id": KEY,
    "kind": KEY,
    "name": NAME,
    "serial": ANY_TEXT,
    "calibration_due": (Text("a day", 10), NULL),
    "unit": ANY_TEXT,
    "range_minimum": (*NUMBER, NULL),
    "range_maximum": (*NUMBER, NULL),
    "accuracy_of_reading": NUMBER,
    "accuracy_of_range": NUMBER,
    "digits": NUMBER,
    "resolution": NUMBER,
    "calibration_uncertainty": NUMBER,
}

SESSION = {"person": PERSON, "csrf": ANY_TEXT, "server_time": INSTANT, "build": Text("a build", 80)}
CURSOR = Text("a cursor", 80)
DELTA = {"cursor": CURSOR, "since": (CURSOR, NULL), "more": bool}
WORK = {
    "server_time": INSTANT,
    "people": [{"id": KEY, "name": NAME}],
    "sites": [{"id": KEY, "name": NAME, "address": ANY_TEXT, "values": Map(dict)}],
    "units": [UNIT],
    "instruments": [INSTRUMENT],
    "visits": [VISIT],
    "procedures": [dict],
    **{name: Optional(shape) for name, shape in DELTA.items()},
}
UNITS = {"units": [UNIT], **DELTA}
HELD = {"short": [UUID]}
RECEIVED = {
    "received": [{"id": UUID, "sha256": SHA256}],
    "refused": [{"id": (ANY_TEXT, NULL), "code": KEY, "detail": ANY_TEXT}],
}
EVENTS = {"events": [EVENT], "last": int}
PHOTO = {"sha256": SHA256}
PARTS = {"sha256": SHA256, "complete": bool, "part": int, "missing": ([int], NULL)}
STATES = ("signed", "accepted", "accepted_with_conditions", "returned", "quarantined")
RECORD = {
    "sha256": SHA256,
    "state": Words(STATES),
    "reasons": [dict],
}
RECORDS = {
    "answers": [
        {
            "sha256": (SHA256, NULL),
            "state": Words((*STATES, "refused", "failed")),
            "reasons": [dict],
        }
    ]
}
DEVICE = {"thumbprint": THUMBPRINT, "name": ANY_TEXT, "enrolled_at": INSTANT}
PROBLEM = {
    "type": Text("a URN", 200),
    "title": SENTENCE,
    "status": int,
    "detail": ANY_TEXT,
    "code": KEY,
    "field": Optional(ANY_TEXT),
}
