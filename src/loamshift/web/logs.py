"""One line of JSON for each request of an office: what, how long, by whom; nothing personal.

Routes stand with their names of parameters, never with values; there are no query strings, no
addresses of people, no texts.
"""

from __future__ import annotations

import json
import logging
import time
import traceback
import uuid
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, Final

from django.http import HttpRequest, HttpResponse

Next = Callable[[HttpRequest], HttpResponse]

LOG: Final = logging.getLogger("loamshift.requests")
_EXTRA: Final = ("route", "method", "status", "ms", "user", "request")


class JsonLines(logging.Formatter):
    """A record as one line of JSON: time, level, and what the request was."""

    def format(self, record: logging.LogRecord) -> str:
        """Write the line; of an exception its kind and places, never its message."""
        line: dict[str, Any] = {
            "time": datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds"),
            "level": record.levelname.lower(),
            "what": record.name,
        }
        told = {key: getattr(record, key, None) for key in _EXTRA}
        if isinstance(told["request"], HttpRequest):
            told["request"] = getattr(told["request"], "request_id", None)
        line |= {key: value for key, value in told.items() if isinstance(value, (str, int, float))}
        if record.name.startswith("loamshift"):
            line["message"] = record.getMessage()
        if record.exc_info and record.exc_info[0] is not None:
            line["error"] = record.exc_info[0].__name__
            line["at"] = [
                f"{'/'.join(Path(frame.filename).parts[-3:])}:{frame.lineno} {frame.name}"
                for frame in traceback.extract_tb(record.exc_info[2])[-8:]
            ]
        return json.dumps(line, ensure_ascii=False)


class Logged:
    """Give each request an id, time it, and write its line."""

    def __init__(self, get_response: Next) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Answer, and log the answer."""
        begun = time.perf_counter()
        name = uuid.uuid4().hex
        request.request_id = name  # type: ignore[attr-defined]
        response = self.get_response(request)
        response.headers["X-Request-Id"] = name
        LOG.log(
            logging.ERROR if response.status_code >= 500 else logging.INFO,
            "answered",
            extra={
                "route": _route(request),
                "method": request.method if request.method in _METHODS else "other",
                "status": response.status_code,
                "ms": round((time.perf_counter() - begun) * 1000.0, 1),
                "user": getattr(request, "person", None),
                "request": name,
            },
        )
        return response


_METHODS: Final = ("GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS")


def _route(request: HttpRequest) -> str:
    """The pattern of the address; that of a static file or of nothing is told as such."""
    match = getattr(request, "resolver_match", None)
    if match is not None:
        return f"/{match.route}"
    return "static" if request.path.startswith("/static/") else "none"


def logging_settings(*, office: bool) -> dict[str, Any]:
    """Lines of JSON for an office; for a single adviser only what went wrong, in full."""
    handler: dict[str, Any] = {"class": "logging.StreamHandler"}
    if office:
        handler["formatter"] = "lines"
    return {
        "version": 1,
        "disable_existing_loggers": False,
        "formatters": {"lines": {"()": "loamshift.web.logs.JsonLines"}},
        "handlers": {"stderr": handler},
        "loggers": {
            "loamshift.requests": {
                "handlers": ["stderr"] if office else [],
                "level": "INFO" if office else "CRITICAL",
                "propagate": False,
            },
            "django": {"handlers": ["stderr"], "level": "ERROR", "propagate": False},
            "django.request": {"handlers": ["stderr"], "level": "ERROR", "propagate": False},
            "django.server": {"handlers": [], "level": "CRITICAL", "propagate": False},
            "django.security": {"handlers": [], "level": "CRITICAL", "propagate": False},
            "waitress": {"handlers": ["stderr"], "level": "ERROR", "propagate": False},
        },
    }
