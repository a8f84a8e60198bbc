"""Bodies that come slowly, or not to their end, on the server that is really run."""

import json
import socket
import threading
import time
from collections.abc import Iterator

import pytest
from cheroot.wsgi import Server

from tests.webapp.receiving.unsent_file import hashed, jpeg


@pytest.fixture(scope="module")
def port(target) -> Iterator[int]:
    server = Server(("127.0.0.1", 0), target.app, numthreads=4, timeout=2)
    server.prepare()
    thread = threading.Thread(target=server.serve, daemon=True)
    thread.start()
    yield server.bind_addr[1]
    server.stop()
    thread.join()


def head(
    target, method: str, path: str, length: int, kind: str = "application/json", more: str = ""
) -> bytes:
    token = target.installer.token()
    cookie = target.installer.get_cookie("session").value
    lines = [
        f"{method} {path} HTTP/1.1",
        "Host: localhost",
        f"Cookie: session={cookie}",
        f"Content-Type: {kind}",
    ]
    lines += [f"X-CSRFToken: {token}", f"Content-Length: {length}", *filter(None, [more]), "", ""]
    return "\r\n".join(lines).encode()


def answered(port: int, *pieces: bytes, pause: float = 0, end: bool = True) -> bytes:
    """What comes back on a connection over which the pieces went."""
    with socket.create_connection(("127.0.0.1", port), timeout=20) as connection:
        for piece in pieces:
            connection.sendall(piece)
            time.sleep(pause)
        if end:
            connection.shutdown(socket.SHUT_WR)
        try:
            return connection.recv(65536)
        except ConnectionError:
            return b""


def status(answer: bytes) -> int | None:
    return int(answer.split()[1]) if answer else None


def test_a_body_that_ends_early_keeps_nothing(target, port: int) -> None:
    event = target.phone.reading(target.visit().id)
    body = json.dumps({"events": [event]}).encode()
    cut = answered(port, head(target, "POST", "/api/events", len(body)), body[:-20])
    assert status(cut) in {None, 400, 408}
    assert target.store.events.find(event["id"]) is None
    whole = answered(port, head(target, "POST", "/api/events", len(body)), body, end=False)
    assert status(whole) == 200
    assert target.store.events.find(event["id"]) is not None


def test_a_photo_that_ends_early_is_no_photo(target, port: int) -> None:
    data = jpeg("olive")
    path = f"/api/photos/{hashed(data)}"
    cut = answered(port, head(target, "PUT", path, len(data), "image/jpeg"), data[:-100])
    assert status(cut) in {None, 400, 408, 422}
    span = f"Content-Range: bytes 0-{len(data) - 1}/{len(data)}"
    part = answered(port, head(target, "PUT", f"{path}/parts", len(data), "image/jpeg", span), data[:-100])
    assert status(part) in {None, 400, 408}
    assert target.store.photos.find(hashed(data)) is None
    assert not list(target.store.photos.folder.rglob(f"{hashed(data)}*"))


def test_a_slow_sender_keeps_nobody_else_waiting(target, port: int) -> None:
    slow = [socket.create_connection(("127.0.0.1", port)) for _ in range(3)]
    for connection in slow:
        connection.sendall(head(target, "POST", "/api/events", 1000) + b'{"ev')
    start = time.monotonic()
    answer = answered(
        port, b"GET /sign-in HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n", end=False
    )
    assert status(answer) == 200
    assert time.monotonic() - start < 10
    for connection in slow:
        connection.close()


@pytest.mark.parametrize(
    "request_",
    [
        b"GET / HTTP/1.1\r\nHost: localhost\r\nX: " + b"a" * 200_000 + b"\r\n\r\n",
        b"GET /" + b"a" * 200_000 + b" HTTP/1.1\r\nHost: localhost\r\n\r\n",
        b"POST /api/events HTTP/1.1\r\nHost: localhost\r\nContent-Length: -5\r\n\r\n",
        b"POST /api/events HTTP/1.1\r\nHost: localhost\r\nContent-Length: 1e3\r\n\r\n",
        b"\x16\x03\x01\x02\x00\x01\x00",
        b"GET / HTTP/9.9\r\n\r\n",
    ],
    ids=range(6),
)
def test_what_is_hardly_a_request_is_answered_or_dropped(port: int, request_: bytes) -> None:
    assert status(answered(port, request_)) in {None, 303, 400, 401, 404, 413, 414, 431, 505}
