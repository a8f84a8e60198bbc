"""Whatever stands in a document, its parser answers or raises the error that it names, and nothing else.

Valid documents are changed in a few places. FUZZ_EXAMPLES=2000 looks longer.
"""

import copy
import json
import os
import zlib
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import jsonschema_rs
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from pypdf import PdfWriter
from pypdf.generic import NameObject

from checks.engine import judge
from checks.judge import CaseError, normalise
from checks.procedure import load
from checks.units import read_typed
from tests.phone import PROCEDURE, Phone, sha256
from tests.webapp.receiving.unsent_file import as_bytes, contents, jpeg, written
from webapp.commands.documents import Documents
from webapp.commands.files import add_file
from webapp.commands.group import BadInput
from webapp.commands.verdicts import verify_all
from webapp.description.schema import schema_of
from webapp.receiving import receive_events, receive_record
from webapp.receiving.unsent import NotYours, owner_of, preview_unsent
from webapp.signing import jws, shapes, verify_record
from webapp.signing.canonical import NotCanonical, canonical, parse
from webapp.signing.unsent import NotUnsent, read_unsent

EXAMPLES = int(os.environ.get("FUZZ_EXAMPLES", "0"))

ODD = [
    None,
    True,
    False,
    0,
    -1,
    1.5,
    1e308,
    2**60,
    "",
    "x",
    "\x00",
    "\ud800",
    "é" * 300,
    [],
    {},
    [[]],
    {"": {}},
]
ODD += ["2026-02-30T00:00:00.000Z", "__proto__", "../..", "0" * 64, "NaN", ["a", 1], {"value": {}}]


def examples(number: int) -> Any:
    """Settings of one run; the same examples each time, unless more are asked for."""
    return settings(
        max_examples=EXAMPLES or number,
        deadline=None,
        derandomize=not EXAMPLES,
        database=None,
        suppress_health_check=list(HealthCheck),
    )


def places(value: Any, place: tuple = ()) -> Iterator[tuple]:
    """Every place of a JSON value, as the names and numbers that lead to it."""
    yield place
    inside = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for name, one in inside:
        yield from places(one, (*place, name))


@st.composite
def changed(draw: Callable, document: Any) -> Any:
    """The document with one to three places replaced, removed, doubled or renamed."""
    document = copy.deepcopy(document)
    for _ in range(draw(st.integers(1, 3))):
        there = [place for place in places(document) if place]
        if not there:
            return document
        *way, last = draw(st.sampled_from(there))
        parent = document
        for name in way:
            parent = parent[name]
        change_one(draw, parent, last)
    return document


def change_one(draw: Callable, parent: Any, last: Any) -> None:
    kind = draw(st.sampled_from(["replace", "replace", "remove", "double", "rename"]))
    if kind == "remove":
        del parent[last]
    elif kind == "double" and isinstance(parent, list):
        parent.append(copy.deepcopy(parent[last]))
    elif kind == "rename" and isinstance(parent, dict):
        parent[draw(st.sampled_from(["", "x", "__proto__", "#", "\x00"]))] = parent.pop(last)
    else:
        parent[last] = copy.deepcopy(draw(st.sampled_from(ODD)))


def changed_bytes(document: bytes) -> st.SearchStrategy[bytes]:
    """The bytes with a piece cut out and something else put there."""
    places = st.integers(0, len(document))
    pieces = st.sampled_from(
        [b"", b"\x00", b"\xff", b'"', b"{", b"]", b"1e999", b"\\ud800", b"NaN", b"," * 3]
    )
    return st.tuples(places, st.integers(0, 40), pieces).map(
        lambda one: document[: one[0]] + one[2] + document[one[0] + one[1] :]
    )


@pytest.fixture(scope="module")
def visit(target) -> Any:
    return target.visit()


@given(
    text=st.text(st.sampled_from("0123456789.,-+eE '\u202f\u2009\u2212%·²xµΩbarMPa/°C\x00٣"), max_size=14)
    | st.text(),
    chosen=st.sampled_from([None, "bar", "mbar", ""]),
)
@examples(300)
def test_typed_numbers(text: str, chosen: str | None) -> None:
    typed = read_typed(text, "bar", ["bar", "mbar", "kPa"], chosen)
    assert typed.problem is None or typed.problem["code"]
    assert typed.value is None or abs(typed.value) < float("inf")


def test_events(target, visit) -> None:
    event = target.phone.reading(visit.id, reason={"code": "other", "text": "x"}, replaces=[visit.id])

    @given(changed(event))
    @examples(120)
    def taken_or_refused(one: Any) -> None:
        answer = receive_events(target.store, [one], target.phone.person)
        assert len(answer["received"]) + len(answer["refused"]) == 1

    taken_or_refused()


def test_the_described_shape_of_an_event_is_the_one_that_is_checked(target, visit) -> None:
    """Two readers of one shape: our own and a JSON Schema library."""
    event = target.phone.reading(visit.id, reason={"code": "other", "text": "x"})
    schema = jsonschema_rs.validator_for(schema_of(shapes.EVENT))

    @given(changed(event))
    @examples(200)
    def alike(one: Any) -> None:
        try:
            canonical(one)
        except NotCanonical:
            return
        if one.get("at") == "2026-02-30T00:00:00.000Z" or str(one.get("offset")).endswith(".0"):
            return  # the schema's pattern does not know the calendar, and holds 1.0 for whole
        assert schema.is_valid(one) == (not list(shapes.wrong_places(shapes.EVENT, one))), one

    alike()


def test_jws(target, visit) -> None:
    text = target.phone.signed_record(visit).encode()

    @given(changed_bytes(text))
    @examples(150)
    def read_or_not_valid(data: bytes) -> None:
        try:
            message = jws.read(data.decode("latin-1"))
            jws.verify(message, target.phone.public)
        except jws.NotValid:
            return

    read_or_not_valid()


def test_records_rightly_signed_over_anything(target, visit) -> None:
    content = target.phone.record(visit, target.phone.entries(visit.id))
    known = {content["procedure"]["hash"]: PROCEDURE}

    @given(changed(content))
    @examples(100)
    def verified_or_found_wrong(one: Any) -> None:
        try:
            canonical(one)
        except NotCanonical:
            return
        text = target.phone.sign(one, "firstwater-record+jws")
        result = verify_record(text, target.store.devices.find, known)
        assert result.valid or result.findings
        assert receive_record(target.store, text, target.phone.person).state in {"signed", "quarantined"}

    verified_or_found_wrong()


def test_unsent_files(target, visit) -> None:
    phone: Phone = target.phone
    file = contents(phone, events=[phone.reading(visit.id)], records=[phone.signed_record(visit)])
    file = written(
        contents(phone, [], [phone.reading(visit.id)], [], [(visit.id, jpeg())])
        | {"records": file["records"]}
    )

    @given(changed(file).map(as_bytes) | changed_bytes(as_bytes(file)))
    @examples(80)
    def shown_or_told(data: bytes) -> None:
        try:
            found = read_unsent(data, target.store.devices.find)
            owner = owner_of(target.store, found, target.desk.person, may_carry=True)
        except (NotUnsent, NotYours):
            return
        for line in preview_unsent(target.store, found, owner, target.desk.person):
            assert line.state in {"new", "here", "quarantined", "refused"}

    shown_or_told()


def test_bundles_and_other_files_of_the_command_verify(target, visit, tmp_path) -> None:
    phone: Phone = target.phone
    content = phone.record(visit, phone.entries(visit.id))
    record = {"sha256": sha256(content), "received_at": "2026-11-25T10:00:00.000Z"}
    record["jws"] = phone.sign(content, "firstwater-record+jws")
    key = {**phone.public, "kid": phone.thumbprint, "firstwater_person": phone.person.id}
    bundle = {"type": "firstwater-bundle", "schema": 1, "made_at": "x", "scope": {"visit": visit.id}}
    bundle |= {"keys": {"keys": [key]}, "procedures": {"x": PROCEDURE}, "records": [record], "decisions": []}
    bundle["photos"] = {"0" * 64: {"type": "image/jpeg", "size": 1, "base64": "AAAA"}}
    unsent = written(contents(phone, records=[record["jws"]]), phone)
    path = tmp_path / "given.json"

    @given(changed(bundle).map(as_bytes) | changed(unsent).map(as_bytes) | changed_bytes(as_bytes(bundle)))
    @examples(60)
    def verified_or_told(data: bytes) -> None:
        path.write_bytes(data)
        documents = Documents()
        try:
            add_file(documents, str(path))
        except BadInput:
            return
        verify_all(documents)

    verified_or_told()


def written_out(value: Any) -> Any:
    """A text as a whole cell, so that its parts can be changed as well."""
    return {"typed": value, "unit": "bar"} if isinstance(value, str) and "bar" in value else value


def test_cases_of_the_command_judge() -> None:
    record = Path(__file__).parents[1] / "records" / "all-well.json"
    case, procedure = json.loads(record.read_text())["case"], load("commissioning")
    case["entries"] = {name: written_out(value) for name, value in case["entries"].items()}

    @given(changed(case))
    @examples(10)
    def judged_or_told(document: Any) -> None:
        try:
            whole = normalise(parse(json.dumps(document)), procedure)
        except (CaseError, NotCanonical):
            return
        assert judge(procedure, whole)["record"]["verdict"]

    judged_or_told()


def test_a_certificate_that_unpacks_to_very_much_is_told_in_one_line(tmp_path) -> None:
    writer = PdfWriter()
    writer.add_blank_page(100, 100)
    writer.add_attachment("record.jws", b"a.b.c")
    (packed,) = (one for one in map(resolved, writer._objects) if one.get("/Type") == "/EmbeddedFile")
    deflate = zlib.compressobj(9)
    packed._data = b"".join(deflate.compress(bytes(2**20)) for _ in range(100)) + deflate.flush()
    packed[NameObject("/Filter")] = NameObject("/FlateDecode")
    writer.write(tmp_path / "certificate.pdf")
    with pytest.raises(BadInput, match="cannot be read as a PDF"):
        add_file(Documents(), str(tmp_path / "certificate.pdf"))


def resolved(one: Any) -> Any:
    found = one.get_object()
    return found if isinstance(found, dict) else {}
