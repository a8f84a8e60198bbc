"""What an administrator changes is in the audit trail, with the values before and after."""

from webapp.store import Site, Store
from webapp.units.noted import changed


def test_each_changed_value_is_named_with_both_values(store: Store, unit) -> None:
    site = store.sites.get(unit.site)
    fed = {"supply_pressure_maximum": {"value": 6, "typed": "6,0", "unit": "bar"}}
    assert changed(site, Site(site.id, site.name, "5 Mill Lane", fed)) == {
        "address": "3 Mill Lane -> 5 Mill Lane",
        "values_supply_pressure_maximum": "- -> 6,0 bar",
    }
    assert changed(unit, unit) == {}
    assert changed(None, unit) == {"name": "Basement unit"}


def test_changing_a_site_and_an_instrument_is_noted(sign_in, store: Store, unit) -> None:
    client = sign_in("administrator")
    answer = client.submit(f"/units/sites/{unit.site}/change", name="Weir House", address="3 Mill Lane")
    assert answer.status_code == 303, answer.text
    entry = store.audit.newest(1)[0]
    assert (entry.action, entry.subject) == ("site_changed", unit.site)
    assert entry.details["name"] == "Weir House, basement -> Weir House"
    assert "changed a site" in client.get("/trail").text


def test_the_token_of_a_label_is_not_noted(sign_in, store: Store, unit) -> None:
    new = store.units.change(unit.id, name="Cellar unit", serial=unit.serial, site=unit.site, plate={})
    assert changed(unit, new) == {"name": "Basement unit -> Cellar unit"}
