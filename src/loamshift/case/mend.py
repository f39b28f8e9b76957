"""What a reader says when a value cannot be used: the problem and the way to mend it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final

from loamshift.domain.message import Given, Message, Prose, Value, Worded, message
from loamshift.domain.worded_error import WordedError, WordedFault
from loamshift.errors import Fault

_BARE: Final = re.compile(r"[A-Za-z0-9_-]+")


class Mend(ValueError):
    """One value cannot be used: ``wrong`` says why, ``right`` what works instead.

    Both are messages. The schema turns them into a ``Fault`` with the path of the value, and
    writes the key before an ``example``.
    """

    def __init__(self, wrong: Message, *right: Message) -> None:
        self.wrong = wrong
        self.right = right
        super().__init__(wrong.key)

    @property
    def problem(self) -> str:
        """What is wrong, in British English."""
        return in_english(self.wrong)

    @property
    def mend(self) -> str:
        """What works instead, in British English."""
        return in_english(Prose(self.right))

    def __str__(self) -> str:
        """Both, in British English."""
        return f"{self.problem} {self.mend}".strip()


class ListMend(Mend):
    """Several values of one list cannot be used; ``parts`` holds each with its place.

    A place is a number from 0 in a list, a key in a table, and empty for the whole of it.
    """

    def __init__(self, parts: Sequence[tuple[int | str, object, Mend]]) -> None:
        self.parts = tuple(parts)
        first = parts[0][2]
        super().__init__(first.wrong, *first.right)


def in_english(said: Worded) -> str:
    """A message as a British reader has it, for those who word nothing themselves."""
    from loamshift.report.messages import say
    from loamshift.report.words import Words

    return say(said, Words())


class Refused(WordedError):
    """Something the user gave cannot be used; ``str()`` is in British English."""

    def __str__(self) -> str:
        """What is wrong, and each fault."""
        return "\n".join([in_english(self.said), *(f"  {one}" for one in self.faults)])


def quoted(value: object) -> Given:
    """A value as it stood in the file, shortened, to be put between quotation marks."""
    return Given(shown(value))


def typed(value: float, *, digits: int = 3) -> Given:
    """A figure as it would be typed: with a point, and without its unit [unit of the key]."""
    return Given(plain_figure(float(f"{value:.{digits}g}")))


def for_example(example: str, *others: str) -> Message:
    """What can be typed instead, as the case file has it.

    Returns
    -------
    Message
        The sentence; whoever knows the key puts it before the example.
    """
    more = Given(", ".join(others)) if others else None
    return message("case-example", key=Given(""), example=Given(example), more=more)


def fault_of(path: str, given: object, wrong: Message, *right: Message) -> Fault:
    """A fault by its messages, in British English as well.

    Parameters
    ----------
    path
        Where, such as ``applied[2].amount``; its last key is put before an example.
    given
        What stood there, or None.
    """
    key = path.rpartition(".")[2]
    told = tuple(_with_key(one, key) for one in right)
    return WordedFault(
        path,
        "" if given is None else shown(given),
        in_english(wrong),
        in_english(Prose(told)),
        Prose((wrong, *told)),
    )


def _with_key(said: Message, key: str) -> Message:
    if "example" not in said.values or not _BARE.fullmatch(key):
        return said
    values: dict[str, Value] = {**said.values, "key": Given(f"{key} = ")}
    return message(said.key, **values)


_SHOWN_CHARS = 60


def shown(value: object) -> str:
    """A value as it stood in the file, shortened for a message.

    Returns
    -------
    str
        At most about sixty characters on one line.
    """
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, int) and abs(value) >= 10**20:
        return f"{str(value)[:8]}…" if abs(value) < 10**4000 else "9…"
    if isinstance(value, dict):
        text = f"{{ {', '.join(str(key) for key in list(value)[:6])} }}"
    elif isinstance(value, list):
        text = f"[{', '.join(shown(one) for one in value[:6])}{', …' if len(value) > 6 else ''}]"
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
    """
    if value == 0.0:
        return "0"
    if abs(value) >= 1000.0 and abs(value) < 1e9:
        return f"{value:.0f}"
    if 1e-4 <= abs(value) < 1000.0:
        return f"{float(f'{value:.3g}'):.6f}".rstrip("0").rstrip(".")
    return f"{value:.3g}"
