"""The calculator without script: the server reads the form, computes and explains."""

import html
import re
from urllib.parse import urlencode

import pytest

from checks.catalogue import FORMULAS
from tests.page_lint import complaints
from webapp.calculator import routes


def ask(client, formula, *pairs, status=200):
    response = client.get(f"/calculator/formula?{urlencode([('formula', formula), *pairs])}")
    assert response.status_code == status
    return html.unescape(response.text)


def result(text):
    """What stands under "Result", without the marks."""
    found = re.search(r'data-part="result">(.*?)</div>', text, re.DOTALL)
    return " ".join(re.sub(r"<[^>]*>", " ", found[1]).split())


def error_of(text, name):
    return re.search(f'id="in-{name}-error" data-part="error">(.*?)</p>', text)[1]


def test_the_list_leads_to_every_formula(client):
    text = client.get("/calculator").text
    assert all(f'href="/calculator/formula?formula={name}"' in text for name in FORMULAS)


def test_the_search_keeps_what_has_all_words(client):
    text = client.get("/calculator?search=relief+highest").text
    assert "relief_set_pressure_maximum" in text
    assert "water_density" not in text


def test_a_formula_is_found_by_what_its_inputs_mean(client):
    assert "flow_velocity" in client.get("/calculator?search=inner+diameter").text


def test_a_search_without_a_match_says_so(client):
    assert "No formula has all of these words." in client.get("/calculator?search=zzz").text


def test_every_form_is_a_valid_page_with_all_its_inputs(app, client):
    """All forms on one page would have one id twice, so each is put into a page by itself."""
    frame = app.test_client().get("/calculator/formula")
    kept = client.get("/calculator/forms.json").json
    assert set(kept) == set(FORMULAS)
    for name, form in kept.items():
        assert all(f'name="{given}"' in form["html"] for given in FORMULAS[name].inputs), name
        page = frame.text.replace("<p>Choose a formula from the list of all formulas.</p>", form["html"])
        frame_with_form = type("Answer", (), {"text": page, "headers": frame.headers})
        assert complaints(frame_with_form) == [], name


# A metre of water at 15 degC weighs 0.0980 bar: Crane TP-410M, conversion of head and pressure (from memory).
@pytest.mark.parametrize("height", ["1", "1,0", "100 cm", "1000 mm"])
def test_a_number_is_read_as_an_entry_reads_it(client, height):
    shown = result(ask(client, "static_head", ("height", height), ("temperature", "59 °F")))
    assert shown.startswith("0.0979") or shown.startswith("0.0980")
    assert shown.endswith("bar")


def test_the_unit_beside_a_number_counts_for_it(client):
    text = ask(client, "static_head", ("height", "100"), ("height.unit", "cm"))
    assert result(text).startswith("0.0979")


def test_the_result_is_shown_in_the_chosen_unit(client):
    text = ask(client, "static_head", ("height", "10.197"), ("result.unit", "kPa"))
    assert re.match(r"99\.9\d* kPa", result(text))


def test_the_inputs_that_share_a_unit_give_it_to_the_result(client):
    text = ask(
        client,
        "parallel_resistance",
        *[("resistances", "1.2"), ("resistances", "800 mohm")],
        ("any.unit", "ohm"),
    )
    assert result(text) == "0.48 Ω"  # 1.2 x 0.8 / (1.2 + 0.8)


def test_what_was_typed_stays_and_the_working_has_the_numbers(client):
    text = ask(client, "flow_velocity", ("flow", "6"), ("bore", "10,0"))
    assert 'value="10,0"' in text
    assert '<details class="working" data-part="working" open>' in text
    assert "<mn>10</mn>" in text


def test_a_missing_value_is_named(client):
    assert result(ask(client, "flow_velocity", ("flow", "6"))) == "Missing: inner diameter."


def test_what_is_no_number_is_said_beside_it(client):
    text = ask(client, "static_head", ("height", "tall"))
    assert error_of(text, "height") == "“tall” is not a number. Type digits, like 6.5."
    assert result(text) == "No result yet. Mend what is marked above."


def test_outside_the_range_the_range_is_named(client):
    text = ask(client, "static_head", ("height", "3"), ("temperature", "120"))
    assert "the formula holds from 0 to 100" in error_of(text, "temperature")
    assert result(text).endswith("Code: outside_range")


def test_a_result_that_does_not_exist_says_why(client):
    given = [("start", "100"), ("limit", "5"), ("inflow", "8")]
    assert result(ask(client, "washout_volumes", *given)).startswith("No result. The limit is never reached")


def test_degrees_are_refused_where_a_difference_of_temperatures_is_meant(client):
    """2 °C are 275.15 K, which nobody means who asks how much the water has cooled."""
    text = ask(client, "leak_rate", ("temperature_change", "2 °C"))
    assert error_of(text, "temperature_change") == "“°C” measures something else. Use one of: K."


def test_a_date_is_given_and_shown_as_a_date(client):
    text = ask(client, "date_after", ("start", "2024-02-28"), ("days", "2"))
    assert result(text) == "2024-03-01"  # 2024 is a leap year


def test_a_date_that_is_none_is_said_beside_it(client):
    text = ask(client, "date_after", ("start", "2023-02-29"), ("days", "2"))
    assert error_of(text, "start") == "This is not a date. Write it as 2026-11-25."


def test_an_unknown_formula_leads_to_the_list(client):
    assert "There is no formula named static_haed here." in ask(client, "static_haed", status=404)


def test_a_phone_keeps_the_list_the_empty_page_and_all_forms(client):
    worker = client.get("/sw.js").text
    assert all(f'"{url}"' in worker for url in routes.page_urls())
    for url in routes.page_urls():
        assert "Set-Cookie" not in client.get(url).headers
