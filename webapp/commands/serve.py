"""firstwater serve: the WSGI server."""

import os
import signal
import ssl
from types import FrameType
from typing import NoReturn

import click
from cheroot.ssl.builtin import BuiltinSSLAdapter
from cheroot.wsgi import Server
from flask import Flask

from webapp import create_app, current
from webapp.commands.group import BadInput, print_table
from webapp.commands.opened import read_settings
from webapp.demo import seed
from webapp.settings import Settings
from webapp.store import Store

DEMO_DATABASE = "instance/demo/firstwater.db"
THREADS = 10
SECONDS_TO_FINISH = 20


@click.command(short_help="Serve the pages and the sync interface.")
@click.option("--host", help="Address to listen on; 0.0.0.0 for every network this machine is in.")
@click.option("--port", type=click.IntRange(1, 65535), help="Port to listen on.")
@click.option("--demo", is_flag=True, help="Show an invented site, with people to sign in as.")
@click.option(
    "--tls",
    type=click.Path(exists=True, dir_okay=False),
    nargs=2,
    metavar="CERTIFICATE KEY",
    help="Serve HTTPS with two PEM files: the certificate, followed by those up to its root, and its key.",
)
def serve(host: str | None, port: int | None, demo: bool, tls: tuple[str, str] | None) -> None:
    """Serve the pages and the sync interface until SIGTERM or Ctrl-C; requests in hand are finished first.

    A phone needs HTTPS to work offline, except on the machine itself (localhost).
    --demo keeps its data apart from yours, in instance/demo, unless FIRSTWATER_DATABASE says otherwise.
    """
    adapter = tls_adapter(*tls) if tls else None
    settings = serving_settings(host, port, demo, secure=bool(tls))
    app = create_app(settings)
    server = make_server(app, settings, adapter)
    judges = app.extensions[current.NAME].judges
    signal.signal(signal.SIGTERM, end)
    try:
        announce(settings, app.extensions[current.NAME].store)
        if judges:
            judges.warm_up()
        server.serve()
    except (KeyboardInterrupt, SystemExit):
        click.echo("Stopping; requests in hand are finished first.")
    finally:
        server.stop()
        if judges:
            judges.close()


def serving_settings(host: str | None, port: int | None, demo: bool, secure: bool) -> Settings:
    overrides: dict[str, object] = {"host": host, "port": port}
    if demo:
        overrides |= {"demo": "yes", "database": os.environ.get("FIRSTWATER_DATABASE", DEMO_DATABASE)}
    if secure:
        overrides["secure_cookies"] = "yes"
    settings = read_settings(**overrides)
    if "FIRSTWATER_BASE_URL" in os.environ:
        return settings
    return read_settings(**overrides, base_url=address(settings.host, settings.port, secure))


def address(host: str, port: int, secure: bool) -> str:
    name = "localhost" if host in {"127.0.0.1", "0.0.0.0", "::", "::1"} else host  # noqa: S104 - a comparison
    return f"{'https' if secure else 'http'}://{name}:{port}"


def tls_adapter(certificate: str, key: str) -> BuiltinSSLAdapter:
    """HTTPS; files that do not fit are told before anything is opened."""
    try:
        return BuiltinSSLAdapter(certificate, key)
    except (ssl.SSLError, OSError) as error:
        raise BadInput(
            f"--tls: {certificate} and {key} are not a certificate and its private key "
            f"({error.strerror or error}). Give two PEM files, the certificate first; "
            "the key must not have a password."
        ) from None


def make_server(app: Flask, settings: Settings, adapter: BuiltinSSLAdapter | None) -> Server:
    """A server that listens already, so that a port in use is told before anything is announced."""
    server = Server(
        (settings.host, settings.port),
        app,
        numthreads=THREADS,
        server_name="firstwater",
        shutdown_timeout=SECONDS_TO_FINISH,
    )
    if adapter:
        server.ssl_adapter = adapter
    try:
        server.prepare()
    except OSError as error:
        raise BadInput(
            f"--port: cannot listen on {settings.host} port {settings.port} ({error.strerror or error}). "
            "Choose another with --port."
        ) from None
    return server


def end(signal_number: int, frame: FrameType | None) -> NoReturn:
    """SIGTERM ends the server in the same orderly way as Ctrl-C."""
    raise SystemExit(0)


def announce(settings: Settings, store: Store) -> None:
    """Print where the server is, and how to sign in for the first time."""
    sign_ins = seed(store, current.utc_now) if settings.demo else []
    click.echo(f"Firstwater is at {settings.base_url} (Ctrl-C stops it)")
    if settings.demo:
        click.echo("Everything in this demonstration is invented. Sign in as one of these people:")
        print_table([(f"  {one.login}", one.password, one.role) for one in sign_ins])
    elif not store.people.all():
        click.echo("Nobody can sign in yet. Make the first administrator: firstwater user add --help")
