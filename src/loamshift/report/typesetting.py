"""Sheets of paper set by typst, any number in one process, which stays as small as it was.

Typst keeps everything it worked out for a document, some 60 MB for a letter, in case the next one
is nearly the same; it drops what the last ten documents had no use for. The next letter is never
nearly the same. Each sheet is therefore followed by as many empty documents, which take a few
milliseconds together, and memory goes back to the system. A process for every sheet would do so
too, but starting one costs more than setting most letters.

What is kept is kept for the whole process, so one sheet is set at a time: eight threads that set
letters at once on two cores took twice the processor time of the same letters in turn.
"""

from __future__ import annotations

import ctypes
import json
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, date, datetime
from functools import cache
from threading import Lock
from typing import TYPE_CHECKING, Any, Final

from loamshift.report.typeface import type_folder

if TYPE_CHECKING:
    from typst import Fonts

STANDARD: Final = "ua-1"
"""Tagged, titled and with its language: what a screen reader needs."""
KEPT_DOCUMENTS: Final = 10
"""Typst drops what so many documents in a row had no use for [count]."""
_EXTENT: Final = (
    "(sheets: query(<{label}>).first().location().page(),"
    " down_pt: query(<{label}>).first().location().position().y / 1pt)"
)
_ONE_AT_A_TIME: Final = Lock()


@dataclass(frozen=True, slots=True)
class Extent:
    """How much paper a document takes."""

    sheets: int
    """Sheets begun [count]."""
    down_pt: float
    """How far down the last sheet it ends [pt]."""
    height_pt: float
    """How tall a sheet is [pt]."""

    @property
    def length(self) -> float:
        """Sheets, the last one counted as far as it is filled [sheets]."""
        return self.sheets - 1 + self.down_pt / self.height_pt


@contextmanager
def typesetting() -> Iterator[None]:
    """All the work on one sheet goes in here; afterwards nothing of it is kept."""
    with _ONE_AT_A_TIME:
        try:
            yield
        finally:
            forget()


def set_pdf(files: Mapping[str, bytes], *, day: date | None) -> bytes:
    """A document as PDF, in our own type whatever the machine has.

    Parameters
    ----------
    files
        Template ``main.typ`` and what it reads, by name.
    """
    import typst

    made = typst.compile(
        _source(files), font_paths=fonts(), ignore_system_fonts=True, format="pdf",
        pdf_standards=STANDARD, timestamp=_noon(day),
    )  # fmt: skip
    assert isinstance(made, bytes)
    return made


def extent(files: Mapping[str, bytes], *, height_pt: float, label: str = "pages") -> Extent:
    """How much paper a document takes.

    Parameters
    ----------
    files
        Template ``main.typ`` and what it reads, by name.
    height_pt
        How tall a sheet is [pt].
    label
        What stands where the measured part ends.

    Returns
    -------
    Extent
        Sheets, and where it ends on the last.

    Notes
    -----
    What typst worked out is kept: set next, the same files take a fraction of the time. Measured
    again in another way, call ``forget`` between.
    """
    import typst

    compiler = typst.Compiler(_source(files), font_paths=fonts(), ignore_system_fonts=True)
    found = json.loads(compiler.eval(_EXTENT.format(label=label)))
    return Extent(sheets=int(found["sheets"]), down_pt=float(found["down_pt"]), height_pt=height_pt)


def forget() -> None:
    """Drop what typst keeps of the documents so far, and give the memory back."""
    import typst

    for _ in range(KEPT_DOCUMENTS + 1):
        typst.compile(b"", font_paths=fonts(), ignore_system_fonts=True, format="svg")
    trim = _trim()
    if trim is not None:
        trim(0)


@cache
def _trim() -> Callable[[int], int] | None:
    """The C library's call that gives freed memory back at once; None where it has none."""
    try:
        found: Callable[[int], int] = ctypes.CDLL(None).malloc_trim
    except (AttributeError, OSError, TypeError):
        return None
    return found


def _source(files: Mapping[str, bytes]) -> Any:
    """Files in memory; the type hints of the wheel do not know that they may be given so."""
    return dict(files)


def _noon(day: date | None) -> datetime:
    """The moment written into a document: noon of its day, so that it never varies."""
    if day is None:
        return datetime(2000, 1, 1, 12, tzinfo=UTC)
    return datetime(day.year, day.month, day.day, 12, tzinfo=UTC)


@cache
def fonts() -> Fonts:
    """Our own type, found once in a process."""
    import typst

    with type_folder() as folder:
        return typst.Fonts(
            include_system_fonts=False, include_embedded_fonts=False, font_paths=[folder]
        )
