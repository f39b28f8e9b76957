"""Whom to ask about a bed that has to be put right."""

from __future__ import annotations

from loamshift.domain.answer import Answer
from loamshift.domain.case import BedKind, Case
from loamshift.domain.message import Message, message


def whom_to_ask(answer: Answer, case: Case) -> tuple[Message, ...]:
    """Who helps with what, where a bed has to be put right.

    Returns
    -------
    tuple of Message
        Nearest help first; empty where there is nothing to put right.

    References
    ----------
    common-practice
    """
    if answer.rescue is None:
        return ()
    codes = {caution.code for caution in answer.cautions}
    lines = [
        message("rescue-ask-hurt"),
        message("rescue-ask-laboratory"),
        message("rescue-ask-adviser"),
    ]
    in_pot = case.bed.kind is BedKind.CONTAINER
    if not in_pot and codes & {"aluminium", "too-acid", "acid-sulfate"}:
        lines.append(message("rescue-ask-acid-sulfate"))
    if "sodic" in codes:
        lines.append(message("rescue-ask-sodium"))
    return tuple(lines)
