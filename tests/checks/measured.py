"""A procedure of one step that computes one quantity from readings, to see what its uncertainty becomes."""

from checks.engine import judge
from checks.procedure import plain
from checks.procedure.load import parse

HEAD = """
id = "measured"
version = 1
title = "Measured"
stages = [{ id = "all", title = "All", steps = ["s"] }]
plate = []
site = []
cautions = {}

[[steps]]
id = "s"
title = "One step"
why = "To try it."
"""
ENTRY = """
[[steps.entries]]
id = "{id}"
kind = "{kind}"
label = "Reading"
unit = "{unit}"
units = ["{unit}"]
instrument = "meter"
minimum = -1e6
maximum = 1e6
"""
RESULT = """
[[steps.derived]]
id = "result"
label = "Result"
unit = "{unit}"
formula = "{formula}"
inputs = {{ {inputs} }}

[[steps.derived]]
id = "limit"
label = "Limit"
unit = "{unit}"
inputs = {{ value = {{ value = {limit} }} }}

[[steps.rules]]
id = "rule"
kind = "limit"
label = "Rule"
reading = "s.result"
upper = "s.limit"
decision = "non_binary"
source = "Invented"
"""


def meter(identity="m", unit="uS/cm", **specification):
    """A meter of range 1; what is not given of its specification is 0."""
    whole = dict.fromkeys(
        ("accuracy_of_reading", "accuracy_of_range", "digits", "resolution", "calibration_uncertainty"), 0
    )
    limits = {"range_minimum": -1e6, "range_maximum": 1e6, "calibration_due": "2027-03-01"}
    return {
        "id": identity,
        "kind": "meter",
        "name": "Meter",
        "unit": unit,
        **whole,
        **limits,
        **specification,
    }


def measured(formula, result_unit, readings, meters, limit=1e6, chosen=None, more=""):
    """The judgement of `formula` over `readings` by input (a list is a series); `chosen`: other meters."""
    kinds = {name: "series" if isinstance(value, list) else "reading" for name, value in readings.items()}
    units = {name: meters[(chosen or {}).get(name, "m")]["unit"] for name in readings}
    text = HEAD + "".join(ENTRY.format(id=name, kind=kinds[name], unit=units[name]) for name in readings)
    inputs = ", ".join([*(f'{name} = "s.{name}"' for name in readings), *([more] if more else [])])
    text += RESULT.format(unit=result_unit, formula=formula, inputs=inputs, limit=limit)
    case = {
        "plate": {},
        "site": {},
        "instruments": meters,
        "entries": {
            f"s.{name}": cells(value, (chosen or {}).get(name, "m")) for name, value in readings.items()
        },
        "steps": {},
    }
    return judge(plain(parse(text, "measured.toml")), case)


def cells(value, identity):
    if isinstance(value, list):
        return [cells(one, identity) for one in value]
    return {"value": value, "instrument": identity, "at": "2026-11-25T09:00:00.000Z"}
