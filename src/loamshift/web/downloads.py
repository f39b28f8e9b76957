"""Files that a page hands out, named after the bed they are about."""

from __future__ import annotations

import unicodedata
from datetime import date
from typing import Final
from urllib.parse import quote

from django.http import HttpResponse
from django.utils.text import slugify

LONGEST_BYTES: Final = 160
"""Longest name without date and ending: file systems take 255 in all [bytes]."""
NAMELESS: Final = "loamshift"


def download(
    data: bytes | str, *, name: str, tail: str, kind: str, day: date | None = None
) -> HttpResponse:
    """A file to be kept, under a name that every system takes.

    Parameters
    ----------
    day
        The day it is of, which its name ends with; None for none.

    Notes
    -----
    A name beyond ASCII goes along in ``filename*`` (RFC 6266, RFC 8187), which browsers prefer;
    what is left of it in ASCII serves programs that do not know it.
    """
    response = HttpResponse(data, content_type=kind)
    dated = "" if day is None else f"-{day.isoformat()}"
    stem = file_stem(name) or NAMELESS
    plain = slugify(stem)[:LONGEST_BYTES].strip("-") or NAMELESS
    header = f'attachment; filename="{plain}{dated}{tail}"'
    if plain != stem:
        header += f"; filename*=UTF-8''{quote(f'{stem}{dated}{tail}', safe='')}"
    response.headers["Content-Disposition"] = header
    response.headers["Cache-Control"] = "private, no-store"
    return response


def file_stem(name: str) -> str:
    """A name as part of a file's name: letters and digits of any script, in small, and hyphens.

    Returns
    -------
    str
        Never a path, a control code or a sign that turns writing around; may be empty.

    Examples
    --------
    >>> file_stem("North border (by the shed)")
    'north-border-by-the-shed'
    >>> file_stem("../Hügel № 3")
    'hügel-3'
    """
    known = unicodedata.normalize("NFC", name).lower()
    kept = "".join(char if unicodedata.category(char)[0] in "LMN" else " " for char in known)
    stem = "-".join(kept.split())
    return stem.encode("utf-8")[:LONGEST_BYTES].decode("utf-8", "ignore").strip("-")
