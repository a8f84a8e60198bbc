"""Headers and cookies."""

import re
from dataclasses import replace
from pathlib import Path

import pytest

from webapp import create_app, current

PAGES = ["/sign-in", "/nowhere", "/api/session", "/static/app.css", "/field", "/manifest.webmanifest"]


@pytest.mark.parametrize("path", PAGES)
def test_every_answer_carries_the_headers(client, path: str) -> None:
    headers = client.get(path, buffered=True).headers
    policy = headers["Content-Security-Policy"].split("; ")
    assert policy == [
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' blob: data:",
        "font-src 'self'",
        "connect-src 'self'",
        "manifest-src 'self'",
        "worker-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
        "object-src 'none'",
        "require-trusted-types-for 'script'",
        "trusted-types firstwater",
    ]
    assert "unsafe" not in headers["Content-Security-Policy"]
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Referrer-Policy"] == "same-origin"
    assert headers["Permissions-Policy"].startswith("camera=(self), ")
    for name in ("geolocation", "microphone", "payment", "usb"):
        assert f"{name}=()" in headers["Permissions-Policy"]
    assert headers["Cross-Origin-Opener-Policy"] == "same-origin"
    assert headers["Cross-Origin-Resource-Policy"] == "same-origin"
    assert "Strict-Transport-Security" not in headers, "said over HTTPS only"
    assert headers["Cache-Control"]


@pytest.mark.parametrize("path", ["/account", "/api/session", "/api/work"])
def test_what_is_personal_is_not_kept_by_caches(sign_in, path: str) -> None:
    assert sign_in("installer").get(path).headers["Cache-Control"] == "no-store"


def test_with_https_the_cookie_is_bound_to_the_host(settings, clock) -> None:
    app = create_app(replace(settings, secure_cookies=True), clock)
    response = app.test_client().get("/sign-in", base_url="https://localhost")
    cookie = response.headers["Set-Cookie"]
    assert cookie.startswith("__Host-session=")
    for word in ("Secure", "HttpOnly", "Path=/", "SameSite=Lax"):
        assert word in cookie
    assert "Domain" not in cookie
    assert response.headers["Strict-Transport-Security"] == "max-age=31536000"
    app.extensions[current.NAME].store.close()


def test_a_form_from_another_site_is_refused_over_https(settings, clock) -> None:
    app = create_app(replace(settings, secure_cookies=True), clock)
    client = app.test_client()
    response = client.post(
        "/sign-out", base_url="https://localhost", headers={"Referer": "https://elsewhere.example/"}
    )
    assert response.status_code == 400
    app.extensions[current.NAME].store.close()


ROOT = Path(__file__).parents[2]
# Names of languages, which no browser fetches.
NAMES_OF_LANGUAGES = {"http://www.w3.org/2000/svg", "http://www.w3.org/1998/Math/MathML"}
SOURCES = [
    file
    for folder in ("static", "webapp")
    for ending in ("*.js", "*.css", "*.html", "*.svg")
    for file in (ROOT / folder).rglob(ending)
]


def test_nothing_that_a_page_loads_names_another_origin() -> None:
    found = {
        f"{file.relative_to(ROOT)}: {address}"
        for file in SOURCES
        if "vendor" not in file.parts and "templates" not in file.name
        for address in re.findall(r"(?:https?|wss?)://[\w.-]+\.[a-z]{2,}[^\s\"'`)>]*", file.read_text())
        if address not in NAMES_OF_LANGUAGES and not is_in_a_comment(file, address)
    }
    assert len(SOURCES) > 100
    assert found == set()


def is_in_a_comment(file: Path, address: str) -> bool:
    lines = [line.strip() for line in file.read_text().splitlines() if address in line]
    return all(line.startswith(("//", "*", "/*", "{#")) for line in lines)


def test_markup_is_made_of_text_in_one_place_alone() -> None:
    sinks = re.compile(
        r"\.(?:inner|outer)HTML\s*=|insertAdjacentHTML|document\.write|parseFromString|createContextualFragment"
        r"|\beval\(|new Function|setHTMLUnsafe|importScripts"
    )
    files = [file for file in (ROOT / "static").rglob("*.js") if "vendor" not in file.parts]
    found = [file for file in files if sinks.search(file.read_text())]
    assert [file.name for file in found] == ["reader.js", "trusted.js"]
    # A worker without a document, which names one address of its own.
    assert re.findall(r"importScripts\((.*?)\)", found[0].read_text()) == ["`${LIBRARY}index.js`"]


def test_webassembly_may_be_compiled_by_one_worker_and_by_no_document(client) -> None:
    def policy(address: str) -> str:
        with client.get(address) as answer:
            return answer.headers["Content-Security-Policy"]

    reader = "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; connect-src 'self'"
    assert policy("/static/scanning/reader.js") == reader
    others = ["/static/scanning/gs1.js", "/static/vendor/zxing-wasm/index.js", "/static/start.js", "/field"]
    policies = set(map(policy, others))
    assert len(policies) == 1
    assert "unsafe" not in policies.pop()


def test_who_comes_through_a_proxy_is_believed_only_as_far_as_the_setting_says(settings, clock) -> None:
    """A header that anybody can send must not choose the address under which guesses are counted."""
    for proxies, seen in ((0, "127.0.0.1"), (1, "198.51.100.7")):
        app = create_app(replace(settings, proxies=proxies), clock)
        client = app.test_client()
        forged = {"X-Forwarded-For": "203.0.113.9, 198.51.100.7"}
        token = re.search(
            r'name="csrf_token"[^>]*value="([^"]+)"', client.get("/sign-in", headers=forged).text
        )
        data = {"csrf_token": token[1], "login": "x", "password": "wrong"}
        client.post("/sign-in", headers=forged, data=data)
        store = app.extensions[current.NAME].store
        assert store.audit.newest(1)[0].details["address"] == seen
        store.close()
