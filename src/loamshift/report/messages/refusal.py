"""Errors in the words of one reader: what is wrong, where, and what works instead."""

from __future__ import annotations

from loamshift.domain.message import Given, Prose, message
from loamshift.domain.worded_error import WordedFault
from loamshift.errors import Fault
from loamshift.report.messages.say import say
from loamshift.report.words import Words


def refusal(error: Exception, words: Words) -> str:
    """An error as this reader has it, its faults each on a line of their own.

    Parameters
    ----------
    error
        One that carries messages; any other says what it says by itself [object].
    words
        Language, units and spelling of the reader [object].

    Returns
    -------
    str
        The text [text].
    """
    said = getattr(error, "said", None)
    if said is None:
        return str(error)
    lines = [say(said, words)]
    lines += [f"  {fault_line(one, words)}" for one in getattr(error, "faults", ())]
    return "\n".join(lines)


def fault_text(fault: Fault, words: Words) -> str:
    """What is wrong and what is right, without the place: whole sentences [text]."""
    if isinstance(fault, WordedFault):
        return say(fault.said, words)
    problem = fault.problem[:1].upper() + fault.problem[1:].rstrip(".")
    return f"{problem}. {fault.mend}".strip()


def problem_text(fault: Fault, words: Words) -> str:
    """What is wrong, alone [text]."""
    if isinstance(fault, WordedFault):
        return say(Prose(fault.said.sentences[:1]), words)
    return fault.problem


def mend_text(fault: Fault, words: Words) -> str:
    """What is right, alone [text]."""
    if isinstance(fault, WordedFault):
        return say(Prose(fault.said.sentences[1:]), words)
    return fault.mend


def fault_line(fault: Fault, words: Words) -> str:
    """A fault with its place, and what stood there, in front [text]."""
    text = fault_text(fault, words)
    if not fault.path:
        return text
    line = message(
        "store-fault-line",
        path=Given(fault.path),
        text=Given(text),
        given=Given(fault.given),
        quoted="yes" if fault.given not in ("", fault.path) else "no",
    )
    return say(line, words)
