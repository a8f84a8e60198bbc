"""Headers and cookies."""

from dataclasses import replace

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
    ]
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Referrer-Policy"] == "same-origin"
    assert headers["Permissions-Policy"].startswith("camera=(self), ")
    assert headers["Cross-Origin-Opener-Policy"] == "same-origin"
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
