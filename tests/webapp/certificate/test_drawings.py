"""Signatures drawn on the glass, as they stand on paper: lines and no picture."""

import copy
import io
import re

import pypdf

from tests.phone import PROCEDURE
from webapp.certificate import Papers, render
from webapp.certificate.drawings import drawing
from webapp.signing.canonical import identity

SIGNED = {
    "value": "Mira Oltmann",
    "role": "Head of facilities",
    "means": "I take the unit over from today.",
    "strokes": [[0, 0, 0, 500, 200, 16, 1000, 400, 32], [20, 30, 50]],
    "stated": False,
}


def test_lines_are_drawn_through_the_points_and_one_alone_is_a_dot():
    assert drawing("Signature", SIGNED)["paths"] == ["M0 0L500 200L1000 400", "M20 30h0"]


def certificate(phone, unit, content):
    procedure = copy.deepcopy(PROCEDURE)
    entry = {**procedure["steps"][0]["entries"][2], "id": "signed", "kind": "drawing", "label": "Signature"}
    procedure["steps"][0]["entries"].append(entry)
    visit = phone.start(unit)
    events = phone.entries(visit.id)
    record = phone.record(visit, [*events, {**events[-1], "field": "test.signed", "content": content}])
    pdf = render(Papers(record, identity(record), procedure, (), {}), "a.b.c", [], [])
    pages = pypdf.PdfReader(io.BytesIO(pdf)).pages
    drawn = b"".join(page.get_contents().get_data() for page in pages)
    return " ".join(" ".join(page.extract_text() for page in pages).split()), len(
        re.findall(rb"\bl\b", drawn)
    )


def test_the_certificate_holds_the_name_the_meaning_and_the_lines(phone, unit):
    text, lines = certificate(phone, unit, SIGNED)
    longer = SIGNED | {"strokes": [*SIGNED["strokes"], [1, 1, 60, 9, 9, 61, 9, 1, 62]]}
    stated, _ = certificate(phone, unit, SIGNED | {"strokes": [], "stated": True})
    for words in ("Mira Oltmann, Head of facilities", "I take the unit over from today."):
        assert words in text
        assert words in stated
    assert "signed by the typed name" in stated
    assert "signed by the typed name" not in text
    assert certificate(phone, unit, longer)[1] - lines == 2
