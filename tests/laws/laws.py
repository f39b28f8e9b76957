"""All laws of one letter: what is wrong with an answer, by law."""

from __future__ import annotations

from laws import course_laws, direction_laws, harm_laws, word_laws
from laws.law import LAWS
from loamshift.domain.answer import Answer
from loamshift.domain.case import Case

__all__ = ["LAWS", "violations"]

_TOPICS = (direction_laws, harm_laws, course_laws, word_laws)


def violations(case: Case, answer: Answer) -> dict[str, list[str]]:
    """What is wrong with an answer, by law.

    Parameters
    ----------
    case
        The case as read [object].
    answer
        Its answer [object].

    Returns
    -------
    dict
        Sentences by the id of the law they break; empty for a good answer [text].
    """
    found = {key: one.check(case, answer) for key, one in sorted(LAWS.items())}
    return {key: broken for key, broken in found.items() if broken}
