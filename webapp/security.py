"""Headers that every answer carries."""

from flask import Flask, request
from werkzeug.wrappers import Response

CONTENT_SECURITY_POLICY = {
    "default-src": "'none'",
    "script-src": "'self'",
    "style-src": "'self'",
    "img-src": "'self' blob: data:",
    "font-src": "'self'",
    "connect-src": "'self'",
    "manifest-src": "'self'",
    "worker-src": "'self'",
    "form-action": "'self'",
    "base-uri": "'none'",
    "frame-ancestors": "'none'",
    "object-src": "'none'",
    # Text becomes markup or a script's address in static/parts/trusted.js alone.
    "require-trusted-types-for": "'script'",
    "trusted-types": "firstwater",
}

PERMISSIONS = {
    "camera": "(self)",
    "publickey-credentials-create": "(self)",
    "publickey-credentials-get": "(self)",
    "screen-wake-lock": "(self)",
    "accelerometer": "()",
    "display-capture": "()",
    "geolocation": "()",
    "gyroscope": "()",
    "hid": "()",
    "magnetometer": "()",
    "microphone": "()",
    "midi": "()",
    "payment": "()",
    "serial": "()",
    "usb": "()",
}

CODE_READER = "scanning/reader.js"
"""The one script whose policy lets WebAssembly be compiled: a worker, with no document to reach into."""

CODE_READER_POLICY = {
    "default-src": "'none'",
    "script-src": "'self' 'wasm-unsafe-eval'",
    "connect-src": "'self'",
}


def written(policy: dict[str, str]) -> str:
    return "; ".join(f"{name} {value}" for name, value in policy.items())


HEADERS = {
    "Content-Security-Policy": written(CONTENT_SECURITY_POLICY),
    "Permissions-Policy": ", ".join(f"{name}={value}" for name, value in PERMISSIONS.items()),
    "X-Content-Type-Options": "nosniff",
    # Flask-WTF compares the Referer of a form sent by HTTPS with the host: "no-referrer" would break it.
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
}

ONE_YEAR = 365 * 24 * 3600


def install(app: Flask, secure_cookies: bool) -> None:
    """Set cookies and headers of ``app``; with HTTPS also strict transport and the host-bound cookie name."""
    app.config.update(
        SESSION_COOKIE_NAME="__Host-session" if secure_cookies else "session",
        SESSION_COOKIE_SECURE=secure_cookies,
        SESSION_COOKIE_HTTPONLY=True,
        SESSION_COOKIE_SAMESITE="Lax",
        SESSION_COOKIE_PATH="/",
        # A cookie with every answer would make pages that phones keep differ from one request to the next.
        SESSION_REFRESH_EACH_REQUEST=False,
    )

    @app.after_request
    def add_headers(response: Response) -> Response:
        response.headers.update(HEADERS)
        if request.endpoint == "static" and (request.view_args or {}).get("filename") == CODE_READER:
            response.headers["Content-Security-Policy"] = written(CODE_READER_POLICY)
        if secure_cookies:
            response.headers["Strict-Transport-Security"] = f"max-age={ONE_YEAR}"
        response.headers.setdefault("Cache-Control", "no-store")
        return response
