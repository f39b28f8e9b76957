"""A ready reply to a question: what is urgent first, then exactly what is still to be known."""

from __future__ import annotations

from collections.abc import Sequence

from loamshift.domain.answer import Missing
from loamshift.domain.message import Given, Message, message
from loamshift.domain.question import Danger, Triage
from loamshift.report.letter_fields import field_called
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.tables.rules import load_cautions


def reply_text(found: Triage, understood: Sequence[str], *, words: Words) -> str:
    """A reply to send, as plain text.

    Parameters
    ----------
    understood
        What was read from the question, one fact to a line.
    """
    paragraphs = [say(message("inbox-reply-hello"), words)]
    paragraphs += [say(one, words) for one in danger_said(found)]
    if understood:
        facts = "\n".join(f"- {fact}" for fact in understood)
        paragraphs.append(f"{say(message('inbox-reply-understood'), words)}\n{facts}")
    asked = [_asked(row, words) for row in found.missing]
    if asked:
        lines = "\n".join(f"{number}. {text}" for number, text in enumerate(asked, 1))
        head = message("inbox-reply-ask", n=len(asked))
        paragraphs.append(f"{say(head, words)}\n{lines}")
    else:
        paragraphs.append(say(message("inbox-reply-enough"), words))
    return "\n\n".join(paragraphs) + "\n"


def danger_said(found: Triage) -> list[Message]:
    """What is to be done at once, the worst first; children and animals only where it matters."""
    minutes = load_cautions()["caustic-lime"].figures["minutes"]
    return [
        message("inbox-danger", danger=one.value, minutes=minutes)
        for one in Danger
        if one in found.dangers
    ]


def _asked(row: Missing, words: Words) -> str:
    """A missing fact by its name, and how to find it out."""
    field, how = Given(field_called(row.field, words)), Given(say(row.how, words))
    return say(message("inbox-reply-item", field=field, how=how), words)
