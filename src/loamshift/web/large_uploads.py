"""Uploads beyond any limit: read to their end and dropped, so that the sender sees an answer.

A browser sends the whole of a form before it reads. A server that answers early and hangs up
resets the connection, and the person sees a broken page in place of the reason.
"""

from __future__ import annotations

import io
from typing import Any, Final

from waitress.parser import HTTPRequestParser  # type: ignore[import-untyped]
from waitress.utilities import RequestEntityTooLarge  # type: ignore[import-untyped]

MOST_READ: Final = 1_000_000_000
"""The largest body that is read to its end; beyond, the connection is closed at once [byte]."""


class Dropped:
    """Takes the bytes of a body and keeps none."""

    error = None

    def __init__(self, length: int) -> None:
        self.left = length
        self.empty = io.BytesIO()

    @property
    def completed(self) -> bool:
        """True when all has come."""
        return self.left <= 0

    def received(self, data: bytes) -> int:
        """Count what has come of this body, and leave what follows it."""
        taken = min(len(data), self.left)
        self.left -= taken
        return taken

    def __len__(self) -> int:
        """Nothing is kept."""
        return 0

    def getfile(self) -> io.BytesIO:
        """An empty body; the middleware refuses the request by the length that it told."""
        return self.empty

    def getbuf(self) -> io.BytesIO:
        """What is closed in the end."""
        return self.empty


class ReadsToTheEnd(HTTPRequestParser):  # type: ignore[misc]
    """Hands a request with too large a body on without it, once all of it has come."""

    body_rcv: Any = None
    error: Any = None

    def received(self, data: bytes) -> int:
        """Take the next bytes of a request; how many of them belong to it."""
        body = self.body_rcv
        if isinstance(body, Dropped):
            taken = body.received(data)
            self.completed = body.completed
            return taken
        taken = int(super().received(data))
        length = int(self.content_length)
        if isinstance(self.error, RequestEntityTooLarge) and 0 < length <= MOST_READ:
            self.error, self.completed = None, False
            self.body_rcv = Dropped(length)
        return taken
