"""The pages of a visit: for anyone, without personal data, the same bytes every time."""

import json
from itertools import chain

import html5lib
import pytest

from checks.procedure import load, procedure_hash
from webapp.field.published import published
from webapp.field.routes import page_urls

SLUG = "commissioning-1"
PAGES = [url for url in page_urls() if not url.endswith(".json")]
STEPS = load("commissioning")["steps"]


def parsed(response):
    return html5lib.parse(response.text, namespaceHTMLElements=False)


def words(element):
    return " ".join("".join(element.itertext()).split())


@pytest.mark.parametrize("url", PAGES)
def test_anyone_may_fetch_the_page_and_it_says_that_it_needs_script(client, url):
    response = client.get(url)
    assert response.status_code == 200
    assert "needs JavaScript" in words(parsed(response).find(".//noscript"))


@pytest.mark.parametrize("url", PAGES)
def test_the_page_is_the_same_for_a_signed_in_person_and_names_nobody(client, sign_in, people, url):
    response = sign_in("installer").get(url)
    assert response.data == client.get(url).data
    assert people["installer"].name not in response.text
    assert "csrf" not in response.text
    assert response.headers["Cache-Control"] == "no-cache"
    assert "Set-Cookie" not in response.headers


def test_the_visit_in_the_query_changes_nothing(client):
    url = f"/field/{SLUG}/earthing"
    visit = "8b0f3c1e-0d0b-4a53-9d55-3f3f6b0f9f10"
    assert client.get(f"{url}?visit={visit}").data == client.get(url).data


def test_every_page_of_every_procedure_is_offered_for_work_without_signal(app):
    urls = set(chain.from_iterable(give() for give in app.extensions["precache_urls"]))
    assert {f"/field/{SLUG}/{step['id']}" for step in STEPS} <= urls
    assert {"/field", "/field/visit", "/field/waiting", "/field/offline", f"/field/{SLUG}/review"} <= urls


@pytest.mark.parametrize("step", STEPS, ids=lambda step: step["id"])
def test_a_step_shows_its_cautions_before_its_first_input(client, step):
    text = client.get(f"/field/{SLUG}/{step['id']}").text
    cautions = load("commissioning")["cautions"]
    assert step["cautions"]
    for name in step["cautions"]:
        assert 0 < text.index(cautions[name]["title"]) < text.index("<form")


@pytest.mark.parametrize("step", STEPS, ids=lambda step: step["id"])
def test_a_step_has_a_place_for_every_entry_every_derived_quantity_and_every_rule(client, step):
    page = parsed(client.get(f"/field/{SLUG}/{step['id']}"))
    for place, things in (("entry", "entries"), ("derived", "derived"), ("rule", "rules")):
        found = [element.get(f"data-{place}") for element in page.iter() if element.get(f"data-{place}")]
        assert sorted(found) == sorted({f"{step['id']}.{thing['id']}" for thing in step[things]})


@pytest.mark.parametrize("step", STEPS, ids=lambda step: step["id"])
def test_a_step_links_to_every_step_that_comes_first(client, step):
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
    procedure = published()[SLUG]
    names = [step["id"] for step in procedure.in_order]
    assert names == [name for stage in procedure.document["stages"] for name in stage["steps"]]
    first, last = names[0], names[-1]
    assert procedure.neighbours(first)[0] is None
    assert procedure.neighbours(last)[1] is None
