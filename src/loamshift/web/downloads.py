"""Files that a page hands out."""

from __future__ import annotations

from django.http import HttpResponse
from django.utils.text import slugify


def download(data: bytes | str, *, name: str, tail: str, kind: str) -> HttpResponse:
    """A file to be kept, under a name that every system takes.

    Parameters
    ----------
    data
        What is in it [bytes].
    name
        What it is called, in any signs [text].
    tail
        The end of its name, with the dot [text].
    kind
        Its media type [text].
    """
    response = HttpResponse(data, content_type=kind)
    plain = slugify(name)[:80] or "loamshift"
    response.headers["Content-Disposition"] = f'attachment; filename="{plain}{tail}"'
    response.headers["Cache-Control"] = "private, no-store"
    return response
