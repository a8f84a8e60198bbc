"""A procedure file is read, normalised, hashed; what is wrong in it is said with the place and what would be right."""

# ruff: noqa: E501 - a table of mistakes reads best with one mistake on a line

import hashlib

import pytest
import rfc8785

from checks.procedure import ProcedureError, load, names, plain, procedure_hash, read
from checks.procedure.load import canonical, parse
from tests.checks.small import TEXT


def wrong(old, new, count=1):
    """The complaint about the small procedure after a change."""
    assert old in TEXT
    with pytest.raises(ProcedureError) as caught:
        parse(TEXT.replace(old, new, count), "small.toml")
    return str(caught.value)


def test_the_plain_form_is_that_of_the_contract():
    plain_form = load("commissioning")
    continuity = next(step for step in plain_form["steps"] if step["id"] == "earthing")["rules"][1]
    assert continuity["kind"] == "limit"
    assert (continuity["reading"], continuity["lower"], continuity["upper"]) == (
        "earthing.continuity",
        None,
        "earthing.limit",
    )
    assert (continuity["decision"], continuity["guard"], continuity["pending"], continuity["when"]) == (
        "guarded",
        1,
        False,
        None,
    )


def test_one_condition_or_several_are_always_a_list():
    rules = next(step for step in load("commissioning")["steps"] if step["id"] == "isolator")["rules"]
    poles = next(rule for rule in rules if rule["id"] == "poles")
    assert poles["when"] == [{"quantity": "site.supply_system", "is": ["tt", "it"], "given": None}]


@pytest.mark.parametrize("name", names())
def test_the_hash_is_that_of_the_canonical_json_of_rfc_8785(name):
    procedure = load(name)
    assert canonical(procedure) == rfc8785.dumps(procedure)
    assert procedure_hash(procedure) == hashlib.sha256(rfc8785.dumps(procedure)).hexdigest()


def test_the_same_procedure_is_the_same_object_and_a_changed_one_has_another_hash():
    procedure = load("commissioning")
    assert load("commissioning") is procedure
    assert procedure_hash({**procedure, "version": 0}) != procedure_hash(procedure)


def test_whole_numbers_are_integers_so_that_every_writer_agrees():
    assert plain((1.0, 0.5, True, None)) == [1, 0.5, True, None]
    assert isinstance(plain(1.0), int)


def test_an_unknown_name_lists_those_there_are():
    with pytest.raises(
        ProcedureError, match=r"maintenance.toml, procedure: no such procedure; there are: commissioning"
    ):
        read("maintenance")


@pytest.mark.parametrize(
    ("old", "new", "complaint"),
    [
        ('id = "small"', "id = ", "small.toml, whole file: not valid TOML"),
        ('unit = "1"\nunits = ["1"]\nminimum = 0\nmaximum = 10', "units = 3\nmaximum = 10", "entries 'colour': field 'units' must be a list, not 3"),
        ('label = "Sound"', 'lable = "Sound"', "steps 'first', entries 'sound': unknown field 'lable'; possible: id, kind, label"),
        ('why = "It comes first."\n', "", "steps 'first': field 'why' is missing"),
        ('cautions = ["pressure"]', 'cautions = ["fire"]', "step 'first': there is no caution 'fire'; there are: pressure"),
        ('steps = ["first", "second", "third"]', 'steps = ["first", "third"]', "list every step once, in the order first, second, third"),
        ('id = "second"\ntitle', 'id = "first"\ntitle', "step 'first': there are two steps of this name"),
        ('step = "first", hold', 'step = "third", hold', "step 'second': needs 'third', which is no earlier step; earlier are: first"),
        ('kind = "yes_no"', 'kind = "maybe"', "entry 'sound': kind 'maybe' is unknown; use one of reading, series"),
        ('kind = "yes_no"', 'kind = "yes_no"\nunit = "bar"', "entry 'sound': a yes_no has no unit"),
        ('units = ["bar", "kPa"]', 'units = ["kPa"]', "plate 'ceiling': unit 'bar' must be among its units kPa"),
        ('units = ["bar", "kPa"]', 'units = ["bar", "furlong"]', "unit 'furlong' is not offered anywhere"),
        ('units = ["bar", "kPa"]', 'units = ["bar", "ohm"]', "unit 'ohm' measures something else than 'bar'"),
        ("minimum = 0\nmaximum = 100", "minimum = 100\nmaximum = 0", "say what is physically possible"),
        ("default = 1\n", "default = 101\n", "site 'floor': the default 101 lies outside 0 to 100"),
        ('label = "Sound"', 'label = "Sound"\ndefault = "yes"', "entry 'sound': field 'default' belongs to plate and site only"),
        ('id = "grade"', 'id = "ceiling"', "plate 'ceiling': there are two entries 'plate.ceiling'"),
        ('source = "Invented"\n\n[[plate]]', "\n[[plate]]", "plate 'ceiling': field 'source' is missing"),
        ('{ value = "fine"', '{ value = "plain"', "plate 'grade': the option 'plain' stands twice"),
        ('is = ["fine"]', 'is = ["finest"]', "plate.grade can never be 'finest'; its options are plain, fine"),
        ('is = ["fine"]', "given = false", "'given = true' asks for an entry"),
        ('is = ["fine"]', 'is = ["fine"], given = true', "either 'is' with a list of values, or 'given = true'"),
        ('quantity = "plate.grade"', 'quantity = "plate.grad"', "there is no quantity 'plate.grad'; did you mean plate.grade"),
        ('formula = "scaled"', 'formula = "scale"', "derived 'doubled': there is no formula 'scale'; did you mean scaled"),
        ("factor = { value = 2 }", "faktor = { value = 2 }", "scaled has no input 'faktor'; it has value, factor"),
        (', factor = { value = 2 } }\n\n[[steps.derived]]\nid = "window_end"', ' }\n\n[[steps.derived]]\nid = "window_end"', "input 'factor' of scaled is missing"),
        ('value = "first.pressure"', 'value = "first.sound"', "input 'value' wants a number, not a yes_no"),
        ('value = "first.pressure"', 'value = "first.colour"', "the unit of result of scaled is 1; it must be bar"),
        ("factor = { value = 2 }", 'factor = { value = "two" }', "input 'factor' must be a number, not 'two'"),
        ("factor = { value = 2 }", 'factor = "first.pressure"', "the unit of factor is bar; it must be 1"),
        ("factor = { value = 2 }", "factor = 2", "an input is a quantity's name"),
        ('property = "resolution"', 'property = "colour"', "an instrument has no 'colour'; it has range_minimum"),
        ('instrument = "third.readings", property', 'instrument = "first.colour", property', "first.colour is not measured with an instrument"),
        ("newest = 3", "newest = 0", "'newest' is how many of the newest readings are taken: 1 or more"),
        ('quantity = "third.readings", newest', 'quantity = "first.pressure", newest', "wants a series of readings"),
        ('when = { quantity = "plate.grade", is = ["plain"] }\n', "", "derived 'first.window_end': the one before it has no condition"),
        ('decision = "guarded"', 'decision = "gut_feeling"', "rule 'pressure': decision 'gut_feeling' is unknown; use one of guarded, non_binary, simple"),
        ('decision = "guarded"', 'decision = "guarded"\nguard = 0', "guard must be above 0"),
        ('lower = "site.floor"\nupper = "plate.ceiling"', "", "a limit needs 'lower', 'upper' or both"),
        ('upper = "plate.ceiling"', 'upper = "first.five"', "first.five is in 1, first.pressure in bar; they must have one unit"),
        ('reading = "first.pressure"', 'reading = "third.readings"', "third.readings is a series; a limit is compared with one number"),
        ('reading = "first.pressure"', 'reading = "first.presure"', "there is no quantity 'first.presure'; did you mean first.pressure"),
        ('weight = "information"', 'weight = "heavy"', "weight 'heavy' is unknown; use one of judge, information"),
        ('decision = "guarded"\nsource = "Invented"', 'decision = "guarded"\nsource = " "', "rule 'pressure': its source is blank"),
        ('decision = "guarded"\nsource = "Invented"', 'decision = "guarded"', "rules 'pressure': field 'source' is missing"),
        ('entry = "first.sound"\nis = ["yes"]', 'entry = "first.sound"\nis = ["perhaps"]', "first.sound can never be 'perhaps'; its options are yes, no"),
        ('entry = "first.sound"\nis = ["yes"]', 'entry = "first.sound"', "rule 'sound': field 'is' is missing"),
        ('entry = "first.sound"', 'entry = "first.pressure"', "first.pressure is a reading; an answer is one of several options"),
        ('entry = "first.sound"', 'entry = "first.sound"\nupper = "plate.ceiling"', "a rule of kind 'answer' has no field 'upper'"),
        ('entry = "second.count"', 'entry = "second.difference"', "second.difference is computed; 'given' asks for an entry"),
        ('entries = ["second.began", "second.ended"]', 'entries = ["second.began"]', "field 'entries' must list two or more"),
        ('entries = ["second.began", "second.ended"]', 'entries = ["second.began", "second.after"]', "second.after is no instant"),
        ('entries = ["second.before", "second.after"]', 'entries = ["second.before", "second.count"]', "second.count is not measured with an instrument"),
        ('kind = "given"', 'kind = "guess"', "kind 'guess' is unknown; use one of limit, answer, given, order, same_instrument"),
        ('id = "count"\nkind = "given"', 'id = "order"\nkind = "given"', "rule 'order': there are two rules of this name"),
        ('id = "doubled"\nlabel = "Twice', 'id = "pressure"\nlabel = "Twice', "derived 'first.pressure': an entry has the same name"),
        ("inputs = { value = { value = 5 } }", 'inputs = { value = "first.five" }', "in a circle: first.five -> first.five; cut it at one place"),
    ],
)  # fmt: skip
def test_a_mistake_is_named_with_its_place_and_its_remedy(old, new, complaint):
    assert complaint in wrong(old, new)


def test_a_circle_through_a_condition_is_found():
    text = wrong('when = { quantity = "plate.grade", is = ["fine"] }\n\n[[steps.derived]]\nid = "doubled"',
                 'when = { quantity = "first.colour", given = true }\n\n[[steps.derived]]\nid = "doubled"')  # fmt: skip
    assert "in a circle: first.colour -> first.colour" in text
