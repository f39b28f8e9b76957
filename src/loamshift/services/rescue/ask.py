"""Whom to ask about a bed that has to be put right."""

from __future__ import annotations

from loamshift.domain.answer import Answer


def whom_to_ask(answer: Answer) -> tuple[str, ...]:
    """Who helps with what, where a bed has to be put right.

    Parameters
    ----------
    answer
        The answer with its rescue and cautions [object].

    Returns
    -------
    tuple of str
        Sentences, nearest help first; empty where there is nothing to put right [text].

    References
    ----------
    common-practice
    """
    if answer.rescue is None:
        return ()
    codes = {caution.code for caution in answer.cautions}
    lines = [
        "A soil laboratory for pH and salt (EC), always by the same method.",
        "A local or licensed adviser before anything more goes on, and before plants of value are "
        "given up.",
    ]
    if codes & {"aluminium", "too-acid", "acid-sulfate"}:
        lines.append(
            "A specialist, before digging or draining, where a soil this acid lies near the coast "
            "or smells of rotten eggs."
        )
    if "sodic" in codes:
        lines.append("A soil chemist before gypsum is bought: the amount hangs on the sodium.")
    return tuple(lines)
