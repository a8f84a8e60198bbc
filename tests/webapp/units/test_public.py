"""Behind the label: what a stranger may know, and nothing else."""

import pytest


@pytest.fixture
def unit(store, unit):
    pressure = {"value": 6, "typed": "6,0", "unit": "bar"}
    plate = {"maximum_pressure": pressure}
    return store.units.change(unit.id, name=unit.name, serial=unit.serial, site=unit.site, plate=plate)


def test_a_stranger_sees_identity_state_and_dates_and_nothing_of_plate_site_or_people(client, unit):
    answer = client.get(f"/u/{unit.token}")
    page = answer.get_data(as_text=True)
    assert answer.status_code == 200
    assert unit.name in page
    assert unit.serial in page
    assert "Not commissioned" in page
    for private in ("Weir House", "Mill Lane", "6,0", unit.id):
        assert private not in page


def test_search_engines_and_caches_are_told_to_leave_it(client, unit):
    answer = client.get(f"/u/{unit.token}")
    assert "noindex" in answer.headers["X-Robots-Tag"]
    assert '<meta name="robots" content="noindex' in answer.get_data(as_text=True)
    assert answer.headers["Cache-Control"] == "no-store"
    assert answer.headers["Referrer-Policy"] in {"same-origin", "no-referrer"}


def test_the_link_in_capitals_that_the_symbol_holds_is_answered(client, unit):
    assert client.get(f"/U/{unit.token}").status_code == 200


@pytest.mark.parametrize("token", ["AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA", "x", "%00", "..%2F"])
def test_an_unknown_token_is_a_plain_404(client, unit, token):
    answer = client.get(f"/u/{token}")
    assert answer.status_code == 404
    assert unit.name not in answer.get_data(as_text=True)


def test_the_token_cannot_be_guessed(unit):
    """OWASP ASVS 5.0.0, 11.5.1: at least 128 random bits; base32 holds five in each sign."""
    assert len(unit.token) * 5 >= 128
    assert unit.token.isalnum()
    assert unit.token == unit.token.upper()


def test_the_short_code_is_no_way_in_for_strangers(client, unit):
    assert client.get(f"/u/{unit.short_code}").status_code == 404


def test_who_is_signed_in_is_led_to_the_whole_unit(sign_in, unit):
    assert f"/units/{unit.id}" in sign_in("installer").get(f"/u/{unit.token}").get_data(as_text=True)


def test_a_new_label_ends_the_old_address(client, sign_in, unit, store):
    answer = sign_in("administrator").press(f"/units/{unit.id}/new-label")
    assert answer.status_code == 303
    assert client.get(f"/u/{unit.token}").status_code == 404
    assert client.get(f"/u/{store.units.get(unit.id).token}").status_code == 200


def test_only_an_administrator_replaces_a_label(sign_in, unit, store):
    assert sign_in("supervisor").post(f"/units/{unit.id}/new-label").status_code == 403
    assert store.units.get(unit.id).token == unit.token
