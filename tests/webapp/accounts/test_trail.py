"""The audit trail as a page."""

import re
from pathlib import Path

import pytest

from tests.phone import Phone
from tests.webapp.units.test_forms import INSTRUMENT, PLATE
from webapp.accounts import trail
from webapp.store import Store, Unit

ACTIONS = re.compile(
    r'audit\.add\(\s*"(\w+)"(?: if \w+ else "(\w+)")?|^ +note\(\s*"(\w+)"(?: if \w+ else "(\w+)")?', re.M
)


def test_what_an_administrator_does_is_noted_and_shown(sign_in, store: Store, people, phone: Phone) -> None:
    administrator, key = sign_in("administrator"), people["installer"].id
    administrator.submit("/people/new", login="new", name="Nell Race", role="quality")
    administrator.submit(f"/people/{key}", name="Ilse Brooke", role="installer")
    administrator.submit(f"/account/devices/{phone.thumbprint}", name="lost phone")
    for action in ("one-time-password", "sign-out", "disable", "enable"):
        administrator.press(f"/people/{key}/{action}")
    administrator.press(f"/account/devices/{phone.thumbprint}/revoke")
    page = administrator.get("/trail").text
    for words in (
        "added a person",
        "changed name or role",
        "renamed a device",
        "gave a one-time password",
        "signed out everywhere",
        "disabled an account",
        "enabled an account",
        "revoked a device",
    ):
        assert re.search(rf"<td[^>]*>Ada Mere</td>\s*<td[^>]*>{words}</td>", page), words
    assert store.audit.broken_at() is None


def test_every_action_that_is_noted_has_words() -> None:
    webapp = Path(trail.__file__).parents[1]
    found = {
        name
        for file in webapp.rglob("*.py")
        for names in ACTIONS.findall(file.read_text())
        for name in names
        if name
    }
    assert len(found) > 15, "the pattern finds what is there"
    assert found - set(trail.WORDS) == set()


def test_addresses_are_for_administrators(sign_in, store: Store, people) -> None:
    store.audit.add("sign_in_failed", person=None, subject=people["installer"].id, address="192.0.2.7")
    assert "192.0.2.7" in sign_in("administrator").get("/trail").text
    page = sign_in("quality").get("/trail").text
    assert "somebody failed to sign in" in page
    assert "192.0.2.7" not in page


def test_older_entries_are_a_page_further(sign_in, store: Store, people) -> None:
    for number in range(trail.PAGE + 1):
        store.audit.add("label_replaced", person=people["administrator"].id, subject=f"unit {number}")
    client = sign_in("quality")
    page = client.get("/trail").text
    assert "unit 100" in page
    assert "unit 0<" not in page
    assert "unit 0<" in client.get("/trail?before=2").text


@pytest.mark.parametrize("before", ["0", "-1", "x"])
def test_a_strange_page_number_does_no_harm(sign_in, before: str) -> None:
    assert sign_in("quality").get(f"/trail?before={before}").status_code == 200


def test_all_devices_are_listed_with_owner_and_last_use(sign_in, store: Store, unit, phone: Phone) -> None:
    visit = phone.start(unit)
    store.events.keep(phone.reading(visit.id), late=False)
    page = sign_in("administrator").get("/devices").text
    row = page[page.index("trial phone") :]
    assert "Ilse Brook" in row
    assert "2026-11-25" in row
    assert store.devices.last_uses(store.devices.all()) == {phone.thumbprint: "2026-11-25T09:30:00.000Z"}


FORMS = {
    "/people/new": {"login": "new", "name": "Nell Race", "role": "quality"},
    "/people/<string:key>": {"name": "Ilse Brooke", "role": "installer"},
    "/units/new": PLATE,
    "/units/<string:key>/change": PLATE | {"serial": "FW-OTHER"},
    "/units/sites/new": {"name": "Mill House"},
    "/units/sites/<string:key>/change": {"name": "Mill House", "address": "9 Mill Lane"},
    "/units/instruments/new": INSTRUMENT,
    "/units/instruments/<string:key>/change": INSTRUMENT | {"name": "Another gauge"},
}


def test_no_change_that_only_an_administrator_may_make_goes_unnoted(
    sign_in, store: Store, people, unit: Unit
) -> None:
    """Every address that changes something and asks for that right, found in the application's own table."""
    administrator = sign_in("administrator")
    tool = store.instruments.add(
        kind="gauge", name="G", serial="1", calibration_due=None, unit="bar", range_minimum=0, range_maximum=6
    )
    store.passkeys.add("passkey", people["installer"].id, "Phone", "AA", 0)
    keys = {"people": people["installer"].id, "instruments": tool.id, "sites": unit.site, "units": unit.id}
    views = administrator.application.view_functions
    rules = [
        rule.rule
        for rule in administrator.application.url_map.iter_rules()
        if "POST" in (rule.methods or ()) and views[rule.endpoint].right == "administer"
    ]
    assert len(rules) >= 13
    for rule in sorted(rules):
        kind = next(kind for kind in keys if f"/{kind}/" in rule)  # the narrower ones come first
        path = rule.replace("<string:key>", keys[kind]).replace("<string:passkey>", "passkey")
        before = store.audit.newest(1)
        site = {"site": unit.site} if kind == "units" else {}
        form = FORMS.get(rule)
        answer = administrator.submit(path, **form, **site) if form else administrator.press(path)
        assert answer.status_code in {200, 303}, rule
        assert store.audit.newest(1) != before, f"{rule} left nothing in the trail"
        assert store.audit.newest(1)[0].person == people["administrator"].id
