"""In which language an answer comes, and what belongs to that."""

import re
from html.parser import HTMLParser

import pytest

from checks import translation
from checks.catalogue import FORMULAS
from checks.units import OFFERED
from webapp import language
from webapp.language import _, lazy, ngettext, told
from webapp.pwa import precache

GERMAN = {"Accept-Language": "de-AT, de;q=0.9, en;q=0.5"}


def lang_of(response):
    return re.search(r'<html lang="(\w+)">', response.text)[1]


RELIEF = (
    "ISO 4126-1:2013 with Amendment 1:2016, EN 1491, EN 806-2 16.1; "
    "safety: the gauge's uncertainty is counted on both sides"
)


def test_a_stranger_reads_what_the_browser_asks_for_and_caches_learn_of_it(client):
    german = client.get("/sign-in", headers=GERMAN)
    french = client.get("/sign-in", headers={"Accept-Language": "fr"})
    assert (lang_of(german), lang_of(french)) == ("de", "en")
    assert "Passwort" in german.text
    assert {"Accept-Language"} <= set(german.vary) & set(french.vary)


def test_the_switch_of_a_stranger_is_an_address(client):
    response = client.get("/sign-in?next=/units&lang=de", headers={"Accept-Language": "en"})
    assert lang_of(response) == "de"
    assert '<a href="?next=%2Funits&amp;lang=en" lang="en" hreflang="en"' in response.text
    assert "Accept-Language" not in response.vary


def test_a_person_s_choice_counts_more_than_the_browser_and_stays(sign_in, store, people):
    client = sign_in("supervisor")
    assert lang_of(client.get("/account", headers=GERMAN)) == "de"
    chosen = client.press("/account/language", language="en", next="/units?q=x")
    assert (chosen.status_code, chosen.location) == (303, "/units?q=x")
    assert lang_of(client.get("/account", headers=GERMAN)) == "en"
    assert store.people.get(people["supervisor"].id).language == "en"


@pytest.mark.parametrize(
    "form", [{"language": "xx", "next": "//elsewhere.example"}, {"next": "https://elsewhere.example/"}, {}]
)
def test_no_language_and_no_place_of_somebody_else_s_is_taken(sign_in, store, people, form):
    response = sign_in("installer").press("/account/language", **form)
    assert (response.status_code, response.location) == (303, "/")
    assert store.people.get(people["installer"].id).language == ""


@pytest.mark.parametrize("page", ["/field", "/field/waiting", "/calculator", "/manifest.webmanifest"])
def test_a_kept_page_has_the_language_of_its_address_whatever_the_browser_asks_for(client, page):
    plain = client.get(page, headers=GERMAN)
    german = client.get(f"{page}?lang=de", headers={"Accept-Language": "en"})
    assert client.get(page).data == plain.data
    assert plain.data != german.data
    assert "Accept-Language" not in {*plain.vary, *german.vary}


def test_an_error_has_the_reader_s_language_on_a_page_and_for_a_phone(client, sign_in):
    assert "Hier ist nichts" in client.get("/nothing", headers=GERMAN).text
    problem = sign_in("installer").call("POST", "/api/visits", json={}, headers=GERMAN).json
    assert problem["title"] == "Die Anfrage hat eine andere Form als erwartet"
    assert problem["code"] == "shape"


def test_numbers_and_days_are_written_as_the_reader_writes_them(app):
    with app.test_request_context(headers=GERMAN):
        assert language.decimal("0.5") == "0,5"
        assert language.date("2026-11-05T10:00:00.000Z") == "05.11.2026"  # Unicode CLDR, German, medium
        assert language.minute("2026-11-05T10:07:00.000Z") == "05.11.2026, 10:07"
        assert language.date("-") == "-"
    with app.test_request_context():
        assert (language.decimal("0.5"), language.date("2026-11-05T10:00:00Z")) == ("0.5", "2026-11-05")


def test_what_is_filled_in_is_escaped_and_no_text_of_its_own(app):
    with app.test_request_context(headers=GERMAN):
        assert language.in_template("Key") == "Schlüssel"
        text = 'Corrects <a href="{address}">an earlier record of this visit</a>.'
        made = language.in_template(text, address='"><b>')
    assert made == 'Berichtigt <a href="&#34;&gt;&lt;b&gt;">ein früheres Protokoll dieses Einsatzes</a>.'


def test_a_sentence_that_was_kept_in_english_is_said_anew_with_what_it_named(app):
    with app.test_request_context(headers=GERMAN):
        assert told("The visit of this record is not known here.").startswith("Der Einsatz dieses Protokolls")
        assert told("The record 77ab before it is missing.") == "Das Protokoll 77ab davor fehlt."
        assert told("Somebody's own words.") == "Somebody's own words."


def test_a_number_chooses_its_form(app):
    with app.test_request_context(headers=GERMAN):
        assert [ngettext("{count} remark", "{count} remarks", n) for n in (0, 1, 2)] == [
            "0 Bemerkungen",
            "1 Bemerkung",
            "2 Bemerkungen",
        ]


def test_of_a_source_the_title_stays_and_what_is_said_about_it_is_translated():
    said = translation.translated({"source": RELIEF, "quantity": RELIEF}, translation.speaker("de"))
    assert said["source"].startswith(
        "ISO 4126-1:2013 mit Änderung 1:2016, EN 1491, EN 806-2 16.1; Sicherheit: "
    )
    assert said["quantity"] == RELIEF


def test_outside_a_request_everything_is_english():
    assert (_("Keep"), str(lazy("Keep"))) == ("Keep", "Keep")


class Texts(HTMLParser):
    """The texts between the elements, and those of attributes that are read out."""

    SAID = frozenset({"aria-label", "title", "alt", "placeholder"})

    def __init__(self, text):
        super().__init__()
        self.found = set()
        self.feed(text)

    def handle_data(self, data):
        self.found.add(" ".join(data.split()))

    def handle_starttag(self, tag, attrs):
        self.found |= {
            value for name, value in attrs if name in {"aria-label", "title", "alt", "placeholder"}
        }


def test_the_pages_that_a_german_phone_keeps_hold_no_english_text(app):
    words = [language.catalogue("de").gettext, translation.speaker("de")]
    signs = {unit.label for unit in OFFERED.values()} | set(FORMULAS)  # some are the msgid of something else
    pages = [(url, one.text) for url, one in precache.answers(app, "de") if one.mimetype == "text/html"]
    assert len(pages) > 80
    for url, text in pages:
        assert '<html lang="de">' in text, url
        texts = Texts(text).found - {""}
        english = {one for one in texts - signs for say in words if say(one) != one}
        # A German word may be the msgid of something else.
        assert english - {say(one) for one in english for say in words} == set(), url
