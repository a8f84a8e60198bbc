"""The pages of a visit: for anyone, without personal data, the same bytes every time."""

import json
import uuid
from itertools import chain

import html5lib
import pytest
from markupsafe import escape

from checks.procedure import load, procedure_hash
from webapp.field.published import present, published
from webapp.field.routes import addresses, is_fixed

SLUG = f"commissioning-{load('commissioning')['version']}"
PAGES = [url for url in addresses({SLUG: present()[SLUG]}) if not url.endswith(".json")]
STEPS = load("commissioning")["steps"]


def parsed(response):
    return html5lib.parse(response.text, namespaceHTMLElements=False)


def words(element):
    return " ".join("".join(element.itertext()).split())


def test_anyone_may_fetch_the_pages_and_they_say_that_they_need_script(client):
    for url in PAGES:
        response = client.get(url)
        assert response.status_code == 200, url
        assert "needs JavaScript" in words(parsed(response).find(".//noscript")), url


def test_the_pages_are_the_same_for_a_signed_in_person_and_name_nobody(client, sign_in, people):
    signed_in = sign_in("installer")
    for url in PAGES:
        response = signed_in.get(url)
        assert response.data == client.get(url).data, url
        assert people["installer"].name not in response.text, url
        assert "csrf" not in response.text, url
        assert response.headers["Cache-Control"] == "no-cache", url
        assert "Set-Cookie" not in response.headers, url


def test_the_visit_in_the_query_changes_nothing(client):
    url = f"/field/{SLUG}/earthing"
    visit = "8b0f3c1e-0d0b-4a53-9d55-3f3f6b0f9f10"
    assert client.get(f"{url}?visit={visit}").data == client.get(url).data


def test_every_page_of_every_procedure_is_offered_for_work_without_signal(app):
    with app.app_context():
        urls = set(chain.from_iterable(give() for give in app.extensions["precache_urls"]))
    assert {f"/field/{SLUG}/{step['id']}" for step in STEPS} <= urls
    assert {"/field", "/field/visit", "/field/waiting", "/field/offline", f"/field/{SLUG}/review"} <= urls


def test_a_step_shows_its_cautions_before_its_first_input(client):
    cautions = load("commissioning")["cautions"]
    for step in STEPS:
        text = client.get(f"/field/{SLUG}/{step['id']}").text
        for name in step["cautions"]:
            assert 0 < text.index(cautions[name]["title"]) < text.index("<form"), (step["id"], name)
            for line in cautions[name]["lines"]:
                assert text.index(str(escape(line))) < text.index("<form"), (step["id"], line)


def test_what_matters_most_of_a_caution_is_never_folded_away(client):
    cautions = load("commissioning")["cautions"]
    for step in STEPS:
        page = parsed(client.get(f"/field/{SLUG}/{step['id']}"))
        shown = [one.text for one in page.iter("span") if one.get("class") == "first"]
        assert shown == [cautions[name]["lines"][0] for name in step["cautions"]], step["id"]


def test_every_step_where_somebody_may_be_hurt_has_cautions():
    harmless = {"access", "consumables", "defects", "next_service", "feed"}
    assert {step["id"] for step in STEPS if not step["cautions"]} <= harmless


@pytest.mark.parametrize(
    ("place", "things"), [("entry", "entries"), ("derived", "derived"), ("rule", "rules")]
)
def test_a_step_has_a_place_for_every_entry_every_derived_quantity_and_every_rule(client, place, things):
    for step in STEPS:
        page = parsed(client.get(f"/field/{SLUG}/{step['id']}"))
        found = [element.get(f"data-{place}") for element in page.iter() if element.get(f"data-{place}")]
        shown = [thing for thing in step[things] if place != "derived" or not is_fixed(thing)]
        assert sorted(found) == sorted({f"{step['id']}.{thing['id']}" for thing in shown})


def test_a_step_links_to_every_step_that_comes_first(client):
    for step in STEPS:
        page = parsed(client.get(f"/field/{SLUG}/{step['id']}"))
        targets = {link.get("href") for link in page.iter("a")}
        assert {f"/field/{SLUG}/{need['step']}" for need in step["needs"]} <= targets


def test_without_script_a_step_shows_again_what_was_typed(client):
    page = parsed(client.get(f"/field/{SLUG}/earthing?entry_length=about+12"))
    assert page.find(".//input[@id='entry_length']").get("value") == "about 12"


def test_the_unit_is_in_the_label_because_a_suffix_is_not_read_out(client):
    page = parsed(client.get(f"/field/{SLUG}/earthing"))
    label = page.find(".//label[@for='entry_cross_section']")
    assert words(label) == "Cross-section in mm²"


@pytest.mark.parametrize(
    "url", [f"/field/{SLUG}/no_such_step", "/field/commissioning-999/earthing", "/field/none/review"]
)
def test_what_is_not_there_is_said_to_be_missing(client, url):
    assert client.get(url).status_code == 404


def kept(store, unit, installer, document):
    """A visit by a procedure that the program no longer brings along."""
    sha256 = store.procedures.keep(document)
    procedure = {"id": document["id"], "version": document["version"], "hash": sha256}
    store.visits.start(
        str(uuid.uuid4()),
        unit=unit.id,
        kind=document["id"],
        procedure=procedure,
        started_at="2026-11-25T09:00:00.000Z",
        started_by=installer.id,
    )


def test_a_visit_goes_on_by_the_version_with_which_it_began(app, client, store, unit, people):
    old = {**load("commissioning"), "version": 0}
    assert client.get("/field/commissioning-0/earthing").status_code == 404
    kept(store, unit, people["installer"], old)
    assert client.get("/field/commissioning-0/earthing").status_code == 200
    assert client.get("/field/commissioning-0/procedure.json").json["hash"] == procedure_hash(old)
    with app.app_context():
        assert "/field/commissioning-0/earthing" in set(addresses(published(store)))
    assert "commissioning-0" not in client.get("/field").text  # but no visit is begun by it


def test_the_version_before_is_kept_for_phones_that_nobody_has_heard_of(app, store):
    store.procedures.keep({**load("commissioning"), "version": load("commissioning")["version"] - 1})
    store.procedures.keep({**load("commissioning"), "version": 0})
    versions = {
        one.document["version"] for one in published(store).values() if one.document["id"] == "commissioning"
    }
    assert versions == {load("commissioning")["version"], load("commissioning")["version"] - 1}


def test_the_procedure_is_given_with_the_hash_of_its_content(client):
    response = client.get(f"/field/{SLUG}/procedure.json")
    document = json.loads(response.data)
    claimed = document.pop("hash")
    assert claimed == procedure_hash(document) == procedure_hash(load("commissioning"))
    assert response.headers["ETag"] == f'"{claimed}"'


def test_an_unchanged_procedure_is_not_sent_again(client):
    url = f"/field/{SLUG}/procedure.json"
    etag = client.get(url).headers["ETag"]
    assert client.get(url, headers={"If-None-Match": etag}).status_code == 304


def test_the_steps_follow_one_another_in_the_order_of_the_stages():
    procedure = present()[SLUG]
    names = [step["id"] for step in procedure.in_order]
    assert names == [name for stage in procedure.document["stages"] for name in stage["steps"]]
    first, last = names[0], names[-1]
    assert procedure.neighbours(first)[0] is None
    assert procedure.neighbours(last)[1] is None


def test_the_page_of_plate_and_site_has_one_named_input_for_each_value(client):
    """Plate and site may both have an entry of one name: the ids tell them apart."""
    page = parsed(client.get(f"/field/{SLUG}/plate"))
    procedure = load("commissioning")
    names = [f"{owner}.{entry['id']}" for owner in ("plate", "site") for entry in procedure[owner]]
    assert [one.get("data-value") for one in page.iterfind(".//*[@data-value]")] == names
    assert [one.get("data-entry") for one in page.iterfind(".//*[@data-entry]")] == names
    ids = [one.get("id") for one in page.iter() if one.get("id")]
    assert len(ids) == len(set(ids))


def test_the_page_of_plate_and_site_is_kept_for_work_without_signal(app):
    with app.app_context():
        urls = set(chain.from_iterable(give() for give in app.extensions["precache_urls"]))
    assert f"/field/{SLUG}/plate" in urls
