"""A file that cannot be read: what is wrong with it, and to type the figures instead."""

from __future__ import annotations

from loamshift.case.mend import Refused, shown
from loamshift.domain.message import Given, Value, message


def refuse(key: str, /, *, file: str, **values: Value) -> Refused:
    """The error for a file, with its name; the message says what to do next.

    Parameters
    ----------
    values
        What the message says beside the name; a text is said as it was found.
    """
    told = {k: Given(shown(v)) if isinstance(v, str) else v for k, v in values.items()}
    return Refused(message(key, file=Given(file), **told))
