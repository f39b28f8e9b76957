"""Claims settled: what each material brings beside what the bed needs."""

from __future__ import annotations

import re

from loamshift.domain.answer import Answer, ClaimResult
from loamshift.domain.case import Case
from loamshift.domain.letter import Paragraph, Section
from loamshift.report.letter_words import (
    as_limestone,
    as_sulfur,
    bed_noun,
    material_called,
    sentence,
    sentences,
)
from loamshift.report.words import Words

_NOTHING_MMOLC_M2 = 0.5
_HARDLY_PH = 0.05


def claims_settled(answer: Answer, case: Case, *, words: Words) -> Section | None:
    """Each claim in a paragraph.

    Parameters
    ----------
    answer
        The answer [object].
    case
        The bed it is about [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Section or None
        Nothing where nobody claimed anything [object].
    """
    if not answer.claims:
        return None
    heading = "The claim in figures" if len(answer.claims) == 1 else "The claims in figures"
    return Section(heading, tuple(Paragraph(_settled(c, case, words)) for c in answer.claims))


def tells_the_ph(comment: str) -> bool:
    """True where a comment already says what the pH does.

    Parameters
    ----------
    comment
        What the service said of the claim [text].

    Returns
    -------
    bool
        True for one that does [truth].
    """
    return bool(re.search(r"\b[Tt]he pH\b", comment))


def reading_words(claim: ClaimResult) -> str:
    """What the pH would do at once and after a year, in tenths.

    Parameters
    ----------
    claim
        The claim settled [object].

    Returns
    -------
    str
        A sentence; empty where neither is known [text].
    """
    now, year = claim.ph_change_now, claim.ph_change_1_year
    if now is None and year is None:
        return ""
    if now is None:
        return f"After a year the pH would {moved(year or 0.0)}."
    if year is None:
        return f"At once the pH would {moved(now)}."
    if moved(now) == moved(year):
        if "speak" in moved(now):
            return f"The pH would {moved(now)}, now or later."
        return f"The pH would {moved(now)} at once and stay there through the year."
    if now * year > 0.0 and "speak" not in moved(now) + moved(year):
        by = f"{abs(year):.1f}"
        return f"The pH would {moved(now)} at once and by about {by} after a year."
    return f"At once the pH would {moved(now)}; after a year it would {moved(year)}."


def _settled(claim: ClaimResult, case: Case, words: Words) -> str:
    name = f"**{material_called(claim.material, words)}:**"
    comment = sentence(claim.comment, words)
    return sentences(
        name,
        words.text(_balance(claim, case, words, share_told="%" in comment)),
        comment,
        "" if tells_the_ph(comment) else words.text(reading_words(claim)),
    )


def _balance(claim: ClaimResult, case: Case, words: Words, *, share_told: bool) -> str:
    """What is brought beside what is needed; the share only where the comment does not tell it."""
    brought, needed = claim.acid_brought_mmolc_m2, claim.acid_needed_mmolc_m2
    lime = needed < 0.0 or (needed == 0.0 and brought < 0.0)
    if abs(brought) < _NOTHING_MMOLC_M2:
        what = "no lime value" if lime else "no lasting acid"
    elif brought > 0.0:
        what = f"acid worth {as_sulfur(brought, words)}"
    else:
        what = f"lime worth {as_limestone(brought, words)}"
    if abs(needed) < _NOTHING_MMOLC_M2:
        return f"{what}; the {bed_noun(case)} needs none."
    need = as_limestone(needed, words) if needed < 0.0 else as_sulfur(needed, words)
    share = claim.share
    if share is not None and share > 0.0 and not share_told and abs(brought) >= _NOTHING_MMOLC_M2:
        return f"{what}, where the {bed_noun(case)} needs {need}: {_percent(share, words)} of it."
    if brought * needed < 0.0 and abs(brought) >= _NOTHING_MMOLC_M2:
        return f"{what}, where the {bed_noun(case)} needs {need}: it pulls the other way."
    return f"{what}, where the {bed_noun(case)} needs {need}."


def _percent(share: float, words: Words) -> str:
    if share < 0.001:
        return "less than a thousandth"
    return f"about {words.percent(share)}"


def moved(change: float) -> str:
    """A change [pH] in words, to follow ``the pH would`` [text]."""
    if abs(change) < _HARDLY_PH:
        return "not move to speak of"
    return f"{'rise' if change > 0.0 else 'fall'} by about {abs(change):.1f}"
