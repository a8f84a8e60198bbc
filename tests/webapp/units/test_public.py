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


@pytest.fixture
def replaced(sign_in, unit, store):
    """The unit with its new label; ``unit.token`` is that of the old one."""
    assert sign_in("administrator").press(f"/units/{unit.id}/new-label").status_code == 303
    return store.units.get(unit.id)


@pytest.mark.parametrize("start", ["/u", "/U"])
def test_a_replaced_label_says_so_and_shows_the_same_facts(client, unit, replaced, clock, start):
    clock.advance(days=30)
    page = client.get(f"{start}/{unit.token}").text
    assert "This label was replaced on 25 November 2026." in page
    for fact in (unit.name, unit.serial, "Not commissioned"):
        assert fact in page
    for private in ("Weir House", "Mill Lane", "6,0", unit.id):
        assert private not in page
    assert "was replaced" not in client.get(f"/u/{replaced.token}").text


@pytest.mark.parametrize("role", [None, "installer", "administrator"])
def test_the_page_of_a_replaced_label_leads_to_no_new_token(client, sign_in, unit, replaced, role):
    page = (sign_in(role) if role else client).get(f"/u/{unit.token}").text
    assert replaced.token not in page
    assert replaced.token.lower() not in page.lower()


def test_the_units_own_page_and_the_trail_tell_of_the_replacement(sign_in, people, unit, store, replaced):
    assert "Label replaced on</dt><dd>25 November 2026" in sign_in("quality").get(f"/units/{unit.id}").text
    (entry,) = store.audit.of(unit.id)
    assert (entry.action, entry.person) == ("label_replaced", people["administrator"].id)
    assert unit.token not in str(entry)
    assert replaced.token not in str(entry)


def test_only_an_administrator_replaces_a_label(sign_in, unit, store):
    assert sign_in("supervisor").post(f"/units/{unit.id}/new-label").status_code == 403
    assert store.units.get(unit.id).token == unit.token
