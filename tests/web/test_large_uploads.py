"""What is far too large is answered with a page that says so, and nothing is kept of it."""

from __future__ import annotations

import socket
import threading
from collections.abc import Iterator
from typing import Any

import pytest
import waitress
from waitress.channel import HTTPChannel

from loamshift.web import large_uploads
from loamshift.web.large_uploads import ReadsToTheEnd
from loamshift.web.sizes import LARGEST_UPLOAD
from loamshift.web.wsgi import application

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture
def port(monkeypatch: pytest.MonkeyPatch, settings: Any) -> Iterator[int]:
    monkeypatch.setattr(HTTPChannel, "parser_class", ReadsToTheEnd)
    server = waitress.create_server(
        application, host="127.0.0.1", port=0, threads=1, max_request_body_size=LARGEST_UPLOAD + 1
    )
    thread = threading.Thread(target=server.run)
    thread.start()
    yield server.effective_port
    server.task_dispatcher.shutdown()
    server.close()
    for channel in list(server.active_channels.values()):
        channel.handle_close()
    thread.join(timeout=10)


def sent(port: int, size: int, *, path: str = "/shelf/prices", kind: str = "") -> bytes:
    """Send all of a body before reading, as a browser does, and read the answer."""
    kind = kind or "multipart/form-data; boundary=a"
    head = (
        f"POST {path} HTTP/1.1\r\nHost: 127.0.0.1:{port}\r\nConnection: close\r\n"
        f"Content-Type: {kind}\r\nContent-Length: {size}\r\n\r\n"
    )
    with socket.create_connection(("127.0.0.1", port), timeout=60) as line:
        line.sendall(head.encode())
        block, left = b"0" * 1_000_000, size
        while left > 0:
            line.sendall(block[: min(left, len(block))])
            left -= len(block)
        answer = b""
        while data := line.recv(65536):
            answer += data
    return answer


@pytest.mark.parametrize("size", [40_000_000, LARGEST_UPLOAD + 1, 150_000_000])
def test_a_form_that_is_too_large_is_answered_with_a_page(port: int, size: int) -> None:
    answer = sent(port, size, kind="application/x-www-form-urlencoded")
    assert answer.startswith(b"HTTP/1.1 413")
    assert b"Nothing was saved. Send less at once." in answer


def test_files_beyond_the_limit_are_answered_with_a_page(port: int) -> None:
    answer = sent(port, 100_000_000)
    assert answer.startswith(b"HTTP/1.1 413")
    assert b"Nothing was saved. Send less at once." in answer


def test_a_program_gets_json(port: int) -> None:
    answer = sent(port, 100_000_000, path="/api/v1/beds", kind="application/json")
    assert answer.startswith(b"HTTP/1.1 413") and b'"detail"' in answer


def test_what_nobody_sends_by_mistake_is_cut_off(
    port: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(large_uploads, "MOST_READ", 1_000_000)
    with pytest.raises(OSError):
        sent(port, 900_000_000)


def test_the_next_request_on_the_same_line_is_read_from_its_start() -> None:
    from waitress.adjustments import Adjustments

    parser = ReadsToTheEnd(Adjustments(max_request_body_size=10))
    head = b"POST / HTTP/1.1\r\nHost: a\r\nContent-Length: 12\r\n\r\n"
    assert parser.received(head) == len(head) and not parser.completed
    assert parser.received(b"0123456789") == 10 and not parser.completed
    assert parser.received(b"01GET / HTTP/1.1\r\n") == 2 and parser.completed
    assert parser.error is None and parser.get_body_stream().read() == b""
