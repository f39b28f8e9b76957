"""What a reader says when a value cannot be used: the problem and the way to mend it."""

from __future__ import annotations

from collections.abc import Sequence


class Mend(ValueError):
    """One value cannot be used; ``problem`` is a clause, ``mend`` a whole sentence.

    The schema turns it into a ``Fault`` with the path of the value.
    """

    def __init__(self, problem: str, mend: str) -> None:
        self.problem = problem
        self.mend = mend
        super().__init__(f"{problem}. {mend}")


class ListMend(Mend):
    """Several values of one list cannot be used; ``parts`` holds each with its place.

    A place is a number from 0 in a list, a key in a table, and empty for the whole of it.
    """

    def __init__(self, parts: Sequence[tuple[int | str, object, Mend]]) -> None:
        self.parts = tuple(parts)
        first = parts[0][2]
        super().__init__(first.problem, first.mend)


_SHOWN_CHARS = 60


def shown(value: object) -> str:
    """A value as it stood in the file, shortened for a message.

    Parameters
    ----------
    value
        Anything read from the file [any].

    Returns
    -------
    str
        At most about sixty characters on one line [text].
    """
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int) and abs(value) >= 10**20:
        return "a whole number of more than 20 digits"
    if isinstance(value, dict):
        text = "a table with " + (", ".join(str(key) for key in list(value)[:6]) or "no keys")
    elif isinstance(value, list):
        text = f"a list of {len(value)}"
    else:
        text = str(value)
    text = "".join(c if c.isprintable() else " " for c in text[: _SHOWN_CHARS * 2])
    text = " ".join(text.split())
    return text if len(text) <= _SHOWN_CHARS else text[: _SHOWN_CHARS - 1] + "…"


def plain_figure(value: float) -> str:
    """A figure in a sentence: three significant digits, no exponent for common sizes.

    >>> plain_figure(430.4), plain_figure(0.0312), plain_figure(30000.0)
    ('430', '0.0312', '30000')

    Parameters
    ----------
    value
        The figure [any unit].

    Returns
    -------
    str
        The figure as text [text].
    """
    if value == 0.0:
        return "0"
    if abs(value) >= 1000.0 and abs(value) < 1e9:
        return f"{value:.0f}"
    if 1e-4 <= abs(value) < 1000.0:
        return f"{float(f'{value:.3g}'):.6f}".rstrip("0").rstrip(".")
    return f"{value:.3g}"


def whole_figure(value: float) -> str:
    """A figure of which only about two digits are meant.

    >>> whole_figure(428.0), whole_figure(1234.0), whole_figure(7.21)
    ('430', '1200', '7.2')

    Parameters
    ----------
    value
        The figure [any unit].

    Returns
    -------
    str
        The figure as text [text].
    """
    return plain_figure(float(f"{value:.2g}"))
