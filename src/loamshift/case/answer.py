"""The answer as JSON: written with every key, read back for a later reprint."""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import fields
from typing import TYPE_CHECKING, Any

from loamshift.case.answer_keys import KEPT_KEYS
from loamshift.case.codec import Codec
from loamshift.case.codec import kind_words as kind_words
from loamshift.case.codec import type_hints as type_hints
from loamshift.case.mend import fault_of, quoted
from loamshift.case.plain import TooManyFaultsError, load_json
from loamshift.case.said import SAID, in_words, with_messages
from loamshift.domain.answer import Answer, Ledger
from loamshift.domain.message import message
from loamshift.errors import CaseError, Fault
from loamshift.report.words import Words

if TYPE_CHECKING:
    from loamshift.case.frozen import FrozenLetter
    from loamshift.domain.case import Case

ANSWER_VERSION = 1
SIGNIFICANT_DIGITS = 6
_FIRST_KEY = {Answer: "answer", Ledger: "unit"}


def answer_keys(kind: type) -> tuple[str, ...]:
    """The keys of one part of the answer, in the order of the file."""
    names = [part.name for part in fields(kind)]
    first = _FIRST_KEY.get(kind)
    if first is not None:
        names.remove(first)
        names.insert(0, first)
    return tuple(names)


def answer_to_dict(
    answer: Answer,
    *,
    case: Case | None = None,
    letter: FrozenLetter | None = None,
    words: Words | None = None,
) -> dict[str, Any]:
    """The answer as plain lists, texts and numbers; every key present, in a fixed order.

    Parameters
    ----------
    case
        What was asked; None leaves its key null.
    letter
        The letter as it was said; None leaves its key null.
    words
        Units and language of the texts; None goes by the units of the case.

    Returns
    -------
    dict
        Its keys; dates as ISO texts, numbers to six significant digits. Case and letter, at
        the end, keep every digit.

    Raises
    ------
    LoamshiftError
        Where a number is not finite, which is our fault, never the user's.
    """
    said: dict[str, Any] = {}
    worded = in_words(answer, words or _words_of(case), said)
    plain: dict[str, Any] = _CODEC.encode(worded, "answer")
    plain |= dict.fromkeys(KEPT_KEYS)
    plain[SAID] = said
    if case is not None:
        from loamshift.case.frozen_case import case_to_plain

        plain["case"] = case_to_plain(case)
    if letter is not None:
        from loamshift.case.frozen import letter_to_plain

        plain["letter"] = letter_to_plain(letter)
    return plain


def _words_of(case: Case | None) -> Words:
    """The words of an answer's own texts: metric and British, or American in US units."""
    us = case is not None and case.units.value == "us"
    return Words("us", "us") if us else Words()


def _rounded(value: float) -> float:
    return float(f"{value:.{SIGNIFICANT_DIGITS}g}") + 0.0


_CODEC = Codec(number=_rounded, keys=answer_keys)


def answer_to_json(
    answer: Answer,
    *,
    case: Case | None = None,
    letter: FrozenLetter | None = None,
    indent: int | None = 2,
    words: Words | None = None,
) -> str:
    """The answer as JSON text.

    Parameters
    ----------
    case
        What was asked; None leaves its key null.
    letter
        The letter as it was said; None leaves its key null.
    indent
        Spaces per level, or None for one line [count].
    words
        Units and language of the texts; None goes by the units of the case.

    Raises
    ------
    LoamshiftError
        Where a number is not finite.
    """
    plain = answer_to_dict(answer, case=case, letter=letter, words=words)
    return json.dumps(plain, indent=indent, ensure_ascii=False, allow_nan=False)


def answer_from_json(text: str, *, source: str = "answer") -> Answer:
    """An answer written earlier; what it keeps of case and letter is passed over.

    Raises
    ------
    CaseError
        Where it is no answer of this version; it carries every fault found.
    """
    return answer_from_tree(load_json(text, source=source), source=source)


def answer_from_tree(tree: Any, *, source: str) -> Answer:
    """An answer from the plain data of its file; its keys ``case`` and ``letter`` do not count.

    Raises
    ------
    CaseError
        Where it is no answer of this version; it carries every fault found.
    """
    version = tree.get("answer") if isinstance(tree, Mapping) else None
    if version != ANSWER_VERSION or isinstance(version, bool):
        wrong = message("answer-not-version-1", given=quoted(version))
        fault = fault_of("answer", version, wrong, message("answer-name-one"))
        raise CaseError([fault], source=source)
    own = {key: value for key, value in tree.items() if key not in KEPT_KEYS}
    faults: list[Fault] = []
    try:
        answer = _CODEC.decode(own, Answer, "", faults)
        if not faults and tree.get(SAID) is not None:
            answer = with_messages(answer, tree[SAID], faults)
    except TooManyFaultsError:
        answer = None
    if faults:
        raise CaseError(faults, source=source)
    assert isinstance(answer, Answer)
    return answer
