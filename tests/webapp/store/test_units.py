"""Sites, units and instruments."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.store import RetiredLabel, Store, Taken, Unit, short_code
from webapp.store.short_code import SIGNS


def test_what_is_kept_comes_back_as_it_was(store: Store) -> None:
    cell = {"value": 0.08, "typed": "0,08", "unit": "ohm"}
    site = store.sites.add("Weir House", "3 Mill Lane", {"continuity_allowance": cell})
    assert store.sites.get(site.id) == site
    unit = store.units.add("Unit", "FW-0002", site.id, {"maximum_pressure": {"value": 6, "unit": "bar"}})
    assert store.units.get(unit.id) == unit
    gauge = store.instruments.add(
        kind="pressure_gauge", name="Gauge", serial="G1", calibration_due=None, unit="bar",
        range_minimum=0, range_maximum=6, accuracy_of_range=0.01, resolution=0.05,
    )  # fmt: skip
    assert store.instruments.get(gauge.id) == gauge


def test_changes_are_kept(store: Store, unit: Unit) -> None:
    changed = store.units.change(unit.id, name="New name", serial="FW-0009", site=unit.site, plate={"a": {}})
    assert store.units.get(unit.id) == changed
    assert (changed.name, changed.token) == ("New name", unit.token)


def test_a_serial_number_is_given_once(store: Store, unit: Unit) -> None:
    with pytest.raises(Taken, match="Another unit already has the serial number 'FW-0001'"):
        store.units.add("Other", unit.serial, unit.site, {})
    other = store.units.add("Other", "FW-0003", unit.site, {})
    with pytest.raises(Taken, match="serial number"):
        store.units.change(other.id, name="Other", serial=unit.serial, site=unit.site, plate={})


def test_the_public_token_has_at_least_128_bits(unit: Unit) -> None:
    assert len(unit.token) * 5 >= 128
    assert set(unit.token) <= set("ABCDEFGHIJKLMNOPQRSTUVWXYZ234567")


def test_a_new_token_retires_the_old_one(store: Store, unit: Unit) -> None:
    assert store.units.replaced_on(unit.id) is None
    changed = store.units.new_token(unit.id)
    assert store.units.by_token(unit.token) is None
    assert store.units.by_token(changed.token) == changed
    retired = RetiredLabel(unit.token, unit.id, "2026-11-25T09:30:00.000Z")
    assert store.units.retired_label(unit.token) == retired
    assert store.units.retired_label(changed.token) is None
    assert store.units.replaced_on(unit.id) == retired.retired_at


def test_every_label_that_a_unit_had_is_known(store: Store, unit: Unit) -> None:
    tokens = [unit.token, store.units.new_token(unit.id).token]
    store.units.new_token(unit.id)
    assert [store.units.retired_label(token).unit for token in tokens] == [unit.id, unit.id]


def test_the_short_code_is_found_as_people_type_it(store: Store, unit: Unit) -> None:
    typed = short_code.grouped(unit.short_code).lower().replace("-", " - ")
    assert store.units.by_short_code(typed) == unit


codes = st.text(SIGNS, min_size=7, max_size=7).map(lambda body: body + short_code.check_sign(body))


@given(codes, st.integers(0, 7), st.sampled_from(SIGNS))
def test_one_wrong_sign_is_noticed(code: str, place: int, sign: str) -> None:
    changed = code[:place] + sign + code[place + 1 :]
    assert short_code.is_valid(changed) == (changed == code)


@given(codes, st.integers(0, 7), st.integers(0, 7))
def test_two_exchanged_signs_are_noticed(code: str, first: int, second: int) -> None:
    signs = list(code)
    signs[first], signs[second] = signs[second], signs[first]
    assert short_code.is_valid("".join(signs)) == (signs == list(code))


def test_no_sign_looks_like_another() -> None:
    assert not set(SIGNS) & set("01ILOQSZBGDUV")
    assert short_code.is_valid(short_code.make())
