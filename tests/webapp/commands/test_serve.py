"""firstwater serve, as a process of its own."""

import os
import signal
import socket
import sqlite3
import ssl
import subprocess
import sys
import time
import urllib.request
from contextlib import closing, contextmanager
from datetime import UTC, datetime, timedelta

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import NameOID

DEADLINE = 180


def free_port():
    with closing(socket.socket()) as probe:
        probe.bind(("127.0.0.1", 0))
        return probe.getsockname()[1]


@contextmanager
def serving(folder, *options, environment=None):
    """(process, port) of a server that answers; its output is in the file `server.log` in the folder."""
    port = free_port()
    command = [sys.executable, "-c", "from webapp.commands import main; main()", "serve", "--port", str(port)]
    variables = {name: value for name, value in os.environ.items() if not name.startswith("FIRSTWATER_")}
    with (folder / "server.log").open("w") as log:
        process = subprocess.Popen(
            [*command, *options],
            cwd=folder,
            env={**variables, "PYTHONUNBUFFERED": "1", "FIRSTWATER_JUDGES": "0", **(environment or {})},
            stdout=log,
            stderr=subprocess.STDOUT,
        )
    try:
        wait_until_it_answers(process, port, folder)
        yield process, port
    finally:
        process.kill()
        process.wait()


def wait_until_it_answers(process, port, folder):
    until = time.monotonic() + DEADLINE
    while time.monotonic() < until and process.poll() is None:
        if "Firstwater is at" in (folder / "server.log").read_text():
            return
        time.sleep(0.1)
    pytest.fail(f"The server did not start:\n{(folder / 'server.log').read_text()}")


def status(address, context=None):
    with urllib.request.urlopen(address, timeout=20, context=context) as answer:
        return answer.status


def test_a_new_server_tells_how_to_make_the_first_administrator(tmp_path):
    with serving(tmp_path) as (process, port):
        assert status(f"http://127.0.0.1:{port}/sign-in") == 200
        process.send_signal(signal.SIGTERM)
        assert process.wait(timeout=30) == 0
    log = (tmp_path / "server.log").read_text()
    assert f"Firstwater is at http://localhost:{port}" in log
    assert "firstwater user add --help" in log
    assert "Stopping; requests in hand are finished first." in log
    with closing(sqlite3.connect(tmp_path / "instance" / "firstwater.db")) as made:
        for table in ("people", "sessions", "passkeys"):
            assert made.execute(f"select count(*) from {table}").fetchone() == (0,), (
                "nobody is there by default"
            )


def test_the_demonstration_prints_sign_ins_and_keeps_its_data_apart(tmp_path):
    with serving(tmp_path, "--demo") as (_, port):
        assert status(f"http://127.0.0.1:{port}/sign-in") == 200
    log = (tmp_path / "server.log").read_text()
    assert "Everything in this demonstration is invented" in log
    assert all(role in log for role in ("installer", "supervisor", "quality", "administrator"))
    assert [path.name for path in (tmp_path / "instance").iterdir()] == ["demo"]


def test_a_port_in_use_is_one_line_that_says_what_to_do(tmp_path):
    with closing(socket.socket()) as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        command = [sys.executable, "-c", "from webapp.commands import main; main()", "serve"]
        command += ["--port", str(taken.getsockname()[1])]
        ended = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, timeout=DEADLINE)
    assert ended.returncode == 2
    assert ended.stderr.startswith("firstwater: --port: cannot listen on 127.0.0.1 port ")
    assert ended.stderr.count("\n") == 1


@pytest.fixture
def certificate(tmp_path):
    """A certificate for localhost, made here and trusted here alone."""
    key = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "localhost")])
    now = datetime.now(UTC)
    made = (
        x509.CertificateBuilder(name, name, key.public_key(), x509.random_serial_number())
        .not_valid_before(now - timedelta(hours=1))
        .not_valid_after(now + timedelta(days=1))
        .add_extension(x509.SubjectAlternativeName([x509.DNSName("localhost")]), critical=False)
        .sign(key, hashes.SHA256())
    )
    (tmp_path / "cert.pem").write_bytes(made.public_bytes(serialization.Encoding.PEM))
    private = key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )
    (tmp_path / "key.pem").write_bytes(private)
    return tmp_path / "cert.pem"


def test_https_needs_a_certificate_with_its_own_key(firstwater, tmp_path, certificate):
    ended = firstwater("serve", "--tls", "cert.pem")
    assert (ended.status, "requires 2 arguments" in ended.err) == (2, True)
    (tmp_path / "empty.pem").write_text("")
    for files in (("empty.pem", "key.pem"), ("cert.pem", "cert.pem"), ("key.pem", "cert.pem")):
        ended = firstwater("serve", "--tls", *files)
        assert (ended.status, ended.err.count("\n")) == (2, 1)
        assert "are not a certificate and its private key" in ended.err
        assert "the certificate first" in ended.err
    assert not (tmp_path / "instance").exists()


def test_https_is_served_with_secure_cookies_and_asked_for_from_then_on(tmp_path, certificate):
    with serving(tmp_path, "--tls", "cert.pem", "key.pem") as (_, port):
        context = ssl.create_default_context(cafile=certificate)
        with urllib.request.urlopen(
            f"https://localhost:{port}/sign-in", timeout=20, context=context
        ) as answer:
            cookie, asked = answer.headers["Set-Cookie"], answer.headers["Strict-Transport-Security"]
    assert cookie.startswith("__Host-session=")
    assert "Secure" in cookie
    assert asked == "max-age=31536000"
    assert f"Firstwater is at https://localhost:{port}" in (tmp_path / "server.log").read_text()
