"""A number typed in is read alike on the phone and on the server; so is every conversion of units."""

import random

import pytest

from checks.units import OFFERED, can_convert, conversion_slope, convert, read_typed

pytestmark = pytest.mark.browser

READ = """async asked => {
  const { readTyped } = await import("/static/judging/typed-number.js");
  return asked.map(parts => readTyped(...parts));
}"""
CONVERT = """async asked => {
  const { canConvert, convert, conversionSlope } = await import("/static/judging/typed-number.js");
  return asked.map(([value, unit, to]) => [
    canConvert(unit, to),
    canConvert(unit, to) ? [convert(value, unit, to), conversionSlope(value, unit, to)] : null,
  ]);
}"""

PIECES = [
    *"0123456789",
    "00",
    "000",
    "123",
    "999",
    ".",
    ",",
    " ",
    "\u00a0",
    "\u2009",
    "\u202f",
    "-",
    "+",
    "\u2212",
]
PIECES += [
    "e",
    "E",
    "e-",
    "1e",
    "\n",
    "\t",
    "'",
    "\u0663",
    "x",
    "NaN",
    "Infinity",
    "0x1",
    "1_000",
    "½",
    "\U0001f6b0",
]
UNITS = [
    "bar",
    " bar",
    "BAR",
    "psi",
    "kPa",
    "MPa",
    "µS/cm",
    "uS/cm",
    "μS/cm",
    "MΩ·cm",
    "MΩ cm",
    "Mohm",
    "mohm",
    "MOHM",
]
UNITS += [
    "°C",
    "degC",
    "F",
    "K",
    "l/min",
    "L/min",
    "m3/h",
    "m³/h",
    "mm2",
    "mm²",
    "%",
    "constructor",
    "__proto__",
    "V",
    "m",
]
ENTRIES = [
    ("bar", ["bar", "kPa"]),
    ("uS/cm", ["uS/cm"]),
    ("ohm", ["ohm", "mohm"]),
    ("degC", ["degC", "degF"]),
    ("1", ["1"]),
]
SENSIBLE = [
    "6.5",
    "6,5",
    "1.234,5",
    "1,234.5",
    "1,234",
    "1.234",
    "1 234,5",
    "-0,0",
    "1e-3",
    "43.5 psi",
    "",
    " ",
    "1e999",
]


def typed_texts(number):
    draw = random.Random("typed numbers")
    yield from SENSIBLE
    for _ in range(number):
        if draw.random() < 0.5:
            text = "".join(draw.choice(PIECES) for _ in range(draw.randint(1, 8)))
        else:
            value = draw.choice(
                [draw.uniform(-2000, 2000), draw.randint(0, 10**7), 10 ** draw.uniform(-9, 9)]
            )
            text = draw.choice(
                [
                    f"{value:.3f}",
                    f"{value:,.2f}",
                    f"{value:g}",
                    repr(value),
                    f"{value:,.1f}".replace(",", " "),
                ]
            )
            text = text.translate(str.maketrans(",.", ".,")) if draw.random() < 0.5 else text
        yield text + (draw.choice(UNITS) if draw.random() < 0.3 else "")


def test_what_is_typed_is_read_alike(phone):
    draw = random.Random("entries")
    asked = [[text, *draw.choice(ENTRIES)] for text in typed_texts(20000)]
    answers = phone.evaluate(READ, asked)
    kinds = set()
    for parts, there in zip(asked, answers, strict=True):
        here = read_typed(*parts)
        assert (here.value, here.unit, here.problem) == (there["value"], there["unit"], there["problem"]), (
            parts
        )
        kinds.add(here.problem and here.problem["code"])
    problems = {"not_a_number", "ambiguous_number", "unknown_unit", "wrong_unit", "out_of_float_range"}
    assert kinds == {None, *problems}


def test_every_conversion_is_computed_alike(phone):
    draw = random.Random("conversions")
    asked = [[draw.uniform(-300, 300), unit, to] for unit in OFFERED for to in OFFERED for _ in range(3)]
    for (value, unit, to), (possible, numbers) in zip(asked, phone.evaluate(CONVERT, asked), strict=True):
        assert can_convert(unit, to) is possible, (unit, to)
        if possible:
            assert numbers == [convert(value, unit, to), conversion_slope(value, unit, to)], (value, unit, to)


def test_a_reciprocal_of_zero_is_a_problem_on_both_sides(phone):
    there = phone.evaluate(READ, [["0 MΩ·cm", "uS/cm", ["uS/cm"]]])[0]
    here = read_typed("0 MΩ·cm", "uS/cm", ["uS/cm"])
    assert here.problem == there["problem"] == {"code": "out_of_float_range", "typed": "0 MΩ·cm"}
