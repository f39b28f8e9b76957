"""What is said of one key of the answer when it is opened."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class AnswerKey:
    """One explanation: sentences, equations, parameter topics, related keys, sources."""

    title: str
    text: tuple[str, ...]
    equations: tuple[str, ...] = ()
    figures: tuple[str, ...] = ()
    """Parameters that weigh most, as ``topic.name``; the topics are named under see also."""
    topics: tuple[str, ...] = ()
    see_also: tuple[str, ...] = ()
    source_keys: tuple[str, ...] = ()
