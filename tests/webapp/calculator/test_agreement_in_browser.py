"""What the server and the phone make of a form is the same, in value and in words."""

import math
import tomllib
from pathlib import Path

import pytest

from checks.catalogue import FORMULAS
from checks.inputs import ANY
from checks.units import OFFERED
from tests.agreement.test_formulas import CANCELLING
from tests.reference.test_reference import FILES, given
from webapp.calculator import declared
from webapp.calculator.reading import answer, read_inputs

pytestmark = [
    pytest.mark.browser,
    # A browser that leaves a page drops the connections on which the server still sends its files.
    pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning"),
]

ASK = """async (forms) => {
  const { answer, readInputs } = await import("/static/parts/calculator-reading.js");
  return forms.map(({ name, form }) => {
    const reading = readInputs(name, form);
    return { reading, answer: answer(name, form, reading) };
  });
}"""

# Texts that people type; U+2212 is the minus of a word processor.
TYPED = [
    ("static_head", {"height": ["1,5"]}, {}),
    ("static_head", {"height": ["1,500"]}, {}),
    ("static_head", {"height": ["1500 mm"]}, {"height": "cm"}),
    ("static_head", {"height": ["150"]}, {"height": "cm", "result": "psi"}),
    ("static_head", {"height": ["tall"]}, {}),
    ("static_head", {"height": ["3 bar"]}, {}),
    ("static_head", {"height": ["3 elbow"]}, {}),
    ("static_head", {"height": ["3"], "temperature": ["120"]}, {}),
    ("static_head", {"height": ["\u22123"], "temperature": ["212 °F"]}, {}),
    ("static_head", {}, {}),
    ("leak_rate", {"temperature_change": ["2 °C"]}, {}),
    ("coverage_factor", {"degrees_of_freedom": ["Inf"]}, {}),
    ("coverage_factor", {"degrees_of_freedom": ["0"]}, {}),
    ("series_mean", {"readings": ["1", "", "2,5"]}, {"any": "bar"}),
    ("reading_trend", {"readings": ["1"]}, {}),
    ("washout_volumes", {"start": ["100"], "limit": ["5"], "inflow": ["8"]}, {"any": "uS/cm"}),
    ("pure_water_resistivity", {"temperature": ["25"]}, {"result": "uS/cm"}),
    ("rcd_trip_time_maximum", {"multiple": ["3"], "kind": ["general"]}, {}),
    ("date_after", {"start": ["2023-02-29"], "days": ["1"]}, {}),
    ("date_after", {"start": ["2024-02-28"], "days": ["2"]}, {}),
]


def form_of(name, texts, units):
    fields = declared.fields(FORMULAS[name])
    offered = {one.name: [unit for unit, _ in one.units] for one in fields if len(one.units) > 1}
    return {"texts": texts, "units": units, "offered": offered, "meanings": declared.names_of(fields)}


def text_of(value):
    return value if isinstance(value, str) else repr(float(value))


def reference_forms():
    """A form for each row of the published values, in the declared units."""
    for file in FILES:
        for row in tomllib.loads(Path(file).read_text(encoding="utf-8"))["rows"]:
            formula = FORMULAS[row["formula"]]
            named = {name: given(value) for name, value in row["inputs"].items()}
            plain, shared = formula.plain(named)
            texts = {
                name: [text_of(one) for one in (value if isinstance(value, list | tuple) else [value])]
                for name, value in plain.items()
                if getattr(formula.inputs[name], "unit", "") != "date"
            }
            for name, value in plain.items():
                if name not in texts:
                    texts[name] = [declared.amount(value, "date")]
                if not hasattr(formula.inputs[name], "unit"):
                    texts[name] = [str(value)]
            yield formula.name, texts, {"any": shared} if shared in OFFERED else {}


def close(name, here, there):
    if isinstance(here, str) or here is None:
        return here == there
    allowed = max(64 * math.ulp(here), CANCELLING.get(name, 0) * abs(here) * 2)
    return abs(here - there) <= allowed


def asked():
    listed = [*TYPED, *reference_forms()]
    return [(name, form_of(name, texts, units)) for name, texts, units in listed]


def test_every_reference_row_and_every_typed_text_gives_the_same_on_both_sides(page, server):
    page.goto(f"{server.url}/calculator/formula")
    forms = asked()
    there = page.evaluate(ASK, [{"name": name, "form": form} for name, form in forms])
    values = 0
    for (name, form), phone in zip(forms, there, strict=True):
        formula = FORMULAS[name]

        def texts(key, form=form):
            chosen = form["units"].get(key.removesuffix(".unit")) if key.endswith(".unit") else None
            return form["texts"].get(key, [chosen] if chosen else [])

        reading = read_inputs(formula, texts)
        found = answer(formula, reading, form["units"].get("result"))
        assert phone["reading"]["problems"] == reading.problems, (name, form)
        assert phone["reading"]["shared"] == reading.shared
        words = [phone["answer"][key] for key in ("reason", "code", "missing", "unit", "shownUnit", "at")]
        expected = [found.reason, found.code, list(found.missing), found.unit, found.shown_unit, found.at]
        assert words == expected, (name, form)
        assert close(name, found.value, phone["answer"]["value"]), (name, form, found, phone)
        assert close(name, found.shown, phone["answer"]["shown"]), (name, form, found, phone)
        values += found.value is not None
    assert values > 200


def test_every_formula_with_a_published_value_is_compared():
    assert ANY in {
        getattr(one, "unit", "") for formula in FORMULAS.values() for one in formula.inputs.values()
    }
    compared = {name for name, _ in asked()}
    rows = {row["formula"] for file in FILES for row in tomllib.loads(file.read_text())["rows"]}
    assert rows <= compared
