"""What a browser is called in the list of sessions, and how one that has signed in before is known again."""

import secrets
from hashlib import sha256

from flask import current_app, request
from itsdangerous import BadSignature, URLSafeSerializer
from werkzeug.wrappers import Response

from webapp import current

COOKIE = "known"
ONE_YEAR = 365 * 24 * 3600

BROWSERS = {
    "Edg/": "Edge",
    "Firefox/": "Firefox",
    "FxiOS/": "Firefox",
    "Chrome/": "Chromium",
    "Safari/": "Safari",
}
SYSTEMS = {
    "Android": "Android",
    "iPhone": "iPhone",
    "iPad": "iPad",
    "Windows": "Windows",
    "Mac OS X": "macOS",
    "Linux": "Linux",
}


def browser_name() -> str:
    """Such as "Firefox on Android", from what the browser calls itself, so that one recognises it."""
    agent = request.user_agent.string
    browser = next((name for sign, name in BROWSERS.items() if sign in agent), "A browser")
    system = next((name for sign, name in SYSTEMS.items() if sign in agent), "an unknown system")
    return f"{browser} on {system}"


def serializer() -> URLSafeSerializer:
    return URLSafeSerializer(current_app.secret_key or "", salt="firstwater-known-browser")


def cookie_name() -> str:
    return f"__Host-{COOKIE}" if current.settings().secure_cookies else COOKIE


def known_browser(login: str) -> str | None:
    """A name for this browser, if this account has signed in with it before.

    Its attempts are counted apart (the "device cookie" of OWASP's page on slow online guessing), so that
    somebody who guesses elsewhere cannot keep the owner out.
    """
    try:
        owner, nonce = serializer().loads(request.cookies.get(cookie_name(), ""))
    except (BadSignature, ValueError, TypeError):
        return None
    return str(nonce) if owner == hashed(login) else None


def remember_browser(response: Response, login: str) -> None:
    """Let this browser be known again for a year; the cookie opens nothing by itself."""
    if known_browser(login) is None:
        response.set_cookie(
            cookie_name(),
            str(serializer().dumps([hashed(login), secrets.token_urlsafe(16)])),
            max_age=ONE_YEAR,
            secure=current.settings().secure_cookies,
            httponly=True,
            samesite="Lax",
        )


def hashed(login: str) -> str:
    return sha256(login.strip().casefold().encode()).hexdigest()
