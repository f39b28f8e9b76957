"""Errors that carry what is to be said as messages, for a door to word in the reader's words."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from loamshift.domain.message import Given, Message, Prose, Worded
from loamshift.errors import Fault, InputError

_NONE = Prose()


class WordedError(InputError):
    """Something the user gave cannot be used: ``said``, with a line for each of ``faults``.

    ``str()`` names keys and values, for logs and programmers.
    """

    def __init__(self, said: Worded, faults: Sequence[Fault] = ()) -> None:
        self.said = said
        self.faults = tuple(faults)
        super().__init__("\n".join([plainly(said), *(f"  {one}" for one in self.faults)]))


@dataclass(frozen=True)
class WordedFault(Fault):
    """One thing wrong with an input; ``said`` is what is wrong and then what is right.

    ``problem`` and ``mend`` hold the same as keys and values, for those who word nothing.
    """

    said: Prose = field(default=_NONE, hash=False)


def fault(path: str, wrong: Message, right: Message | None = None, *, given: str = "") -> Fault:
    """A fault by its messages.

    Parameters
    ----------
    path
        Where in the file or the form; empty where no place is to blame.
    """
    sentences = (wrong,) if right is None else (wrong, right)
    return WordedFault(
        path, given, plainly(wrong), "" if right is None else plainly(right), Prose(sentences)
    )


def given(text: object) -> Given:
    """Any value as the text that a person gave."""
    return Given(str(text))


def plainly(said: Worded) -> str:
    """Keys and values of a message, for logs and programmers.

    Examples
    --------
    >>> from loamshift.domain.message import message
    >>> plainly(message("store-change-gone", name=Given("North border")))
    'store-change-gone (name: North border)'
    """
    if isinstance(said, str):
        return said
    if isinstance(said, Prose):
        return "; ".join(plainly(one) for one in said.sentences)
    values = ", ".join(f"{name}: {_plain(value)}" for name, value in said.values.items())
    return f"{said.key} ({values})" if values else said.key


def _plain(value: object) -> str:
    if isinstance(value, Given):
        return value.text
    return plainly(value) if isinstance(value, (Message, Prose)) else str(value)
