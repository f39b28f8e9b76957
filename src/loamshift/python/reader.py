"""Who reads what Python is given: units, spelling, and errors in whole sentences."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Literal

from loamshift.domain.case import Case
from loamshift.errors import InputError
from loamshift.report.messages.refusal import refusal
from loamshift.report.missing_extra import missing_extra
from loamshift.report.words import Words

Units = Literal["metric", "us"]
Spelling = Literal["uk", "us"]


def words_of(case: Case, *, units: Units | None, spelling: Spelling | None) -> Words:
    """The reader's words: units as asked, else as the case has them; spelling follows the units."""
    chosen = case.units.value if units is None else units
    return Words(spelling=spelling or ("us" if chosen == "us" else "uk"), units=chosen)


@contextmanager
def worded_errors() -> Iterator[None]:
    """Errors that the user can mend say so in sentences, as the command line does."""
    try:
        yield
    except InputError as error:
        error.args = (refusal(error, Words()),)
        raise
    except ImportError as error:
        missing = missing_extra(error)
        if missing is None:
            raise
        missing.args = (refusal(missing, Words()),)
        raise missing from error
