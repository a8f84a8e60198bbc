"""The Flask application: ``create_app(settings)`` is the only way to one."""

from collections.abc import Callable
from datetime import datetime, timedelta
from importlib import import_module
from pathlib import Path

from flask import Flask, redirect
from flask_wtf import CSRFProtect
from werkzeug.middleware.proxy_fix import ProxyFix
from werkzeug.wrappers import Response

from checks import procedure as procedures
from webapp import compression, current, language, limits, problems, rights, security
from webapp.receiving import Judges, examining_here
from webapp.settings import Settings
from webapp.store import Store

BLUEPRINTS = {
    "accounts": None,
    "field": "/field",
    "calculator": "/calculator",
    "office": "/office",
    "units": None,
    "sync": "/api",
    "pwa": None,
}

LARGEST_REQUEST = 9 * 1024 * 1024  # a photo of 8 MB and room for headers of a form

START_PAGES = {
    "installer": "/field",
    "supervisor": "/office/",
    "quality": "/office/",
    "administrator": "/people",
}


def create_app(settings: Settings, clock: Callable[[], datetime] = current.utc_now) -> Flask:
    """An application over the store that ``settings`` name; opens and migrates it."""
    app = Flask(__name__, static_folder=static_folder(), static_url_path="/static")
    app.url_map.strict_slashes = False  # /units and /units/ are one page to whoever types the address
    app.config.update(
        SECRET_KEY=settings.secret_key,
        MAX_CONTENT_LENGTH=LARGEST_REQUEST,
        MAX_FORM_MEMORY_SIZE=1024 * 1024,
        PERMANENT_SESSION_LIFETIME=timedelta(days=settings.session_days),
        WTF_CSRF_TIME_LIMIT=None,  # as long as the session: a form may lie open in a plant room all day
    )
    store = Store(settings.database, clock, settings.photos)
    judges = Judges(settings.database, settings.judges, examining_here(store)) if settings.judges else None
    app.extensions[current.NAME] = current.Running(settings, store, clock, judges)
    security.install(app, settings.secure_cookies)
    compression.install(app)
    problems.install(app)
    language.install(app)
    app.before_request(rights.guard)  # before the CSRF check, so that a lost session is told as such
    limits.install(app, settings.calls_per_minute)
    if settings.proxies:
        hops = settings.proxies
        app.wsgi_app = ProxyFix(app.wsgi_app, hops, hops, hops)  # type: ignore[method-assign]
    CSRFProtect(app)
    rights.right("anyone")(app.view_functions["static"])
    # Kept for good: a record is judged again by the procedure it names, however old that is.
    for name in procedures.names():
        store.procedures.keep(procedures.load(name), procedures.canonical_text(name))
    for name, prefix in BLUEPRINTS.items():
        app.register_blueprint(import_module(f"webapp.{name}").make_blueprint(), url_prefix=prefix)
    app.add_url_rule("/", "start", start)
    app.context_processor(page_context)
    return app


def static_folder() -> Path:
    """The phone's files: inside the installed package, or beside it in a checkout."""
    here = Path(__file__).parent
    packaged = here / "_static"
    return packaged if packaged.is_dir() else here.parent / "static"


@rights.right("anyone")
def start() -> Response:
    person = current.person()
    if person is None:
        return redirect("/sign-in", 303)
    first = START_PAGES[person.role]
    first = language.address(first) if first == "/field" else first
    return redirect("/account/password" if person.one_time_password else first, 303)


def page_context() -> dict[str, object]:
    person = current.person()
    return {
        "person": person,
        "navigation": rights.navigation(person),
        "may": lambda name: rights.has_right(person, name),
        "demo": current.settings().demo,
    }
