"""What stands behind one key of the answer when it is opened; the words are messages."""

from __future__ import annotations

from dataclasses import dataclass

from loamshift.domain.message import Message, choice, message


@dataclass(frozen=True, slots=True, kw_only=True)
class AnswerKey:
    """One explanation: how many paragraphs and equations, parameter topics, keys, sources."""

    paragraphs: int = 1
    equations: int = 0
    figures: tuple[str, ...] = ()
    """Parameters that weigh most, as ``topic.name``; the topics are named under see also."""
    topics: tuple[str, ...] = ()
    see_also: tuple[str, ...] = ()
    source_keys: tuple[str, ...] = ()


def title_of(key: str) -> Message:
    """The title of a key of the answer."""
    return message(f"explained-{choice(key)}")


def paragraphs_of(key: str, entry: AnswerKey) -> tuple[Message, ...]:
    """What is said of a key by its entry, a message for each paragraph."""
    return tuple(
        message(f"explained-{choice(key)}-{number}") for number in range(1, entry.paragraphs + 1)
    )


def equations_of(key: str, entry: AnswerKey) -> tuple[Message, ...]:
    """The equations of a key by its entry, a message for each."""
    return tuple(
        message(f"explained-{choice(key)}-equation-{number}")
        for number in range(1, entry.equations + 1)
    )
