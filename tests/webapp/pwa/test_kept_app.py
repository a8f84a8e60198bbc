"""The real application: everything that a field page loads, at once or later, is kept on the phone."""

import re
from html.parser import HTMLParser
from pathlib import Path
from posixpath import dirname, join, normpath

import pytest

from webapp import create_app
from webapp.language import LANGUAGES
from webapp.pwa import precache
from webapp.settings import Settings

ROOT = Path(__file__).parents[3]
LARGEST = 450_000  # bytes that travel until the phone works without signal, as Brotli
IMPORT = re.compile(r"""(?:^import|^export|\bfrom|\bimport\()\s*["']([^"']+)["']""", re.MULTILINE)
PART = re.compile(r'^  "?([a-z-]+)"?: \(\) => import\("\./parts/\1\.js"\),$', re.MULTILINE)
USED_PART = re.compile(r'data-module="([a-z-]+)"')


class Loads(HTMLParser):
    """Addresses of the files that a page loads."""

    def __init__(self):
        super().__init__()
        self.found = set()

    def handle_starttag(self, tag, attributes):
        wanted = {"script": "src", "link": "href", "img": "src"}.get(tag)
        address = dict(attributes).get(wanted)
        if address and not address.startswith("data:"):
            self.found.add(address)


@pytest.fixture(scope="module")
def app(tmp_path_factory):
    app = create_app(Settings.for_tests(tmp_path_factory.mktemp("kept")))
    yield app
    app.extensions["firstwater"].store.close()


@pytest.fixture(scope="module")
def contents(app):
    """Address -> bytes of everything that the application has phones keep."""
    kept = {url: response.data for url, response in precache.answers(app, "en")}
    build = precache.of(app).build
    return kept | {precache.BUILD_SCRIPT: precache.build_script(build)}


def travels(client, url):
    with client.get(url, headers={"Accept-Encoding": "br"}) as response:
        return len(response.data)


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_whole_app_is_small_enough_for_a_weak_signal(app, language):
    client, query = app.test_client(use_cookies=False), precache.query_of(language)
    files = precache.of(app, language).files
    asked = {parcel or url for url, _, parcel in files} | {"/sw.js"}
    assert sum(travels(client, url + query) for url in asked) < LARGEST
    assert len(asked) < 12, "Each request costs a weak signal a round trip"


def test_what_a_kept_page_loads_is_kept(contents):
    for url, content in contents.items():
        if url.startswith(("/field", "/calculator")) and not url.endswith(".json"):
            loads = Loads()
            loads.feed(content.decode())
            assert loads.found <= set(contents), f"{url} loads {loads.found - set(contents)}"


def test_what_a_kept_module_imports_is_kept(contents):
    for url, content in contents.items():
        if url.endswith(".js"):
            imported = {normpath(join(dirname(url), name)) for name in IMPORT.findall(content.decode())}
            assert imported <= set(contents), f"{url} imports {imported - set(contents)}"


def test_every_part_that_a_page_names_can_be_started(contents):
    parts = set(PART.findall(contents["/static/start.js"].decode()))
    templates = ROOT.joinpath("webapp").rglob("*.html")
    used = {name for path in templates for name in USED_PART.findall(path.read_text())}
    assert used <= parts, f"static/start.js does not know {used - parts}"
    assert parts <= used, f"No page uses {parts - used}: take it out of static/start.js"


def test_the_pages_are_those_of_nobody_in_particular(contents):
    """The same bytes for everyone: a token or a name in a page would be somebody else's on the next phone."""
    for url, content in contents.items():
        if url.startswith("/field"):
            assert b"csrf" not in content, url
            assert b"Sign out" not in content, url
