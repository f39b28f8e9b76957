"""Claims checked: what each material brings beside what the bed needs."""

from __future__ import annotations

import re
from typing import Final

from loamshift import units
from loamshift.domain.answer import Answer, ClaimResult, Reason
from loamshift.domain.case import BedKind, Case
from loamshift.domain.letter import Paragraph, Section
from loamshift.domain.message import (
    Given,
    Measure,
    Message,
    Product,
    Prose,
    Quantity,
    Worded,
    message,
    ph,
    prose,
    rate,
)
from loamshift.report.messages import say
from loamshift.report.words import Words

_NOTHING_MMOLC_M2: Final = 0.5
_TINY: Final = 0.01
"""A smaller share is told as less than one per cent [1]."""
_HARDLY_PH: Final = 0.05
_PLACES: Final = {BedKind.CONTAINER: "pot", BedKind.LAWN: "lawn", BedKind.FIELD: "field"}
_TELL_THE_PH: Final = (
    "claim-dips",
    "claim-gypsum-sodic",
    "claim-iron",
    "claim-lime-first",
    "claim-off-the-curve",
)


def claims_settled(answer: Answer, case: Case, *, words: Words) -> Section | None:
    """Each claim in a paragraph, or that they wait for a test of the pH."""
    if case.claims and answer.verdict.reason is Reason.NO_PH:
        asked = {"claims": len(case.claims)}
        waits = Paragraph(say(message("claim-waits", **asked), words))
        return Section(say(message("claim-waits-heading", **asked), words), (waits,))
    if not answer.claims:
        return None
    heading = message("claim-heading", claims=len(answer.claims))
    sodic = answer.verdict.reason is Reason.SODIC  # whose need no dose for ordinary soil is
    told = tuple(
        Paragraph(_settled(claim, case, words, need_told=sodic or place > 0))
        for place, claim in enumerate(answer.claims)
    )
    return Section(say(heading, words), told)


def claim_place(case: Case) -> str:
    """What the ground of a case is called: bed, pot, lawn or field."""
    return _PLACES.get(case.bed.kind, "bed")


def tells_the_ph(comment: Worded) -> bool:
    """True where a comment already says what the pH does."""
    if isinstance(comment, str):  # worded by an earlier version
        return bool(re.search(r"\b[Tt]he pH\b", comment))
    return any(
        one.key.startswith("claim-year-") or one.key in _TELL_THE_PH for one in _each(comment)
    )


def reading_words(claim: ClaimResult) -> Prose:
    """What the pH would do at once and after a year, in tenths.

    Returns
    -------
    Prose
        A sentence or two; none where neither is known.
    """
    now, year = claim.ph_change_now, claim.ph_change_1_year
    first = None if now is None else _reading_now(now)
    later = None if year is None else _reading_year(year)
    if now is None or year is None:
        return prose(first, later)
    if turn_of(now) == turn_of(year) == "none":
        return prose(message("claim-reading-still"))
    if f"{now:.1f}" == f"{year:.1f}":
        return prose(message("claim-reading-stays", turn=turn_of(now), now=ph(abs(now))))
    return prose(first, later)


def _reading_now(change: float) -> Message:
    return message("claim-reading-now", turn=turn_of(change), now=ph(abs(change)))


def _reading_year(change: float) -> Message:
    return message("claim-reading-year", turn=turn_of(change), year=ph(abs(change)))


def turn_of(change: float) -> str:
    """A change [pH] as a choice: rise, fall or none."""
    if abs(change) < _HARDLY_PH:
        return "none"
    return "rise" if change > 0.0 else "fall"


def worth(acid_mmolc_m2: float) -> Measure:
    """An amount of acid or base as the pure sulphur or limestone that would make it.

    Parameters
    ----------
    acid_mmolc_m2
        Acid; negative where it is base [mmolc/m2].

    Returns
    -------
    Measure
        A rate of sulphur for acid, of limestone for base [g/m2].
    """
    if acid_mmolc_m2 >= 0.0:
        return rate(units.sulfur_as_s_g_m2_from_acid_mmolc_m2(acid_mmolc_m2))
    return rate(units.lime_as_caco3_g_m2_from_acid_mmolc_m2(-acid_mmolc_m2))


def brings_of(acid_mmolc_m2: float) -> str:
    """Whether an amount [mmolc/m2] is acid, lime or none to speak of, as a choice."""
    if abs(acid_mmolc_m2) < _NOTHING_MMOLC_M2:
        return "none"
    return "acid" if acid_mmolc_m2 > 0.0 else "lime"


def balance(
    claim: ClaimResult, case: Case, *, share_told: bool = False, need_told: bool = False
) -> Prose:
    """What is brought beside what is needed.

    Parameters
    ----------
    share_told
        True where the share of the need is told elsewhere.
    need_told
        True where the need is: several claims about one bed say it once.
    """
    brought, needed = claim.acid_brought_mmolc_m2, claim.acid_needed_mmolc_m2
    place = claim_place(case)
    brings = brings_of(brought)
    if brings == "none":
        limes = needed < 0.0 or (needed == 0.0 and brought < 0.0)
        brings = "no-lime" if limes else "no-acid"
    verdict = None
    share = claim.share
    some = abs(brought) >= _NOTHING_MMOLC_M2
    if some and abs(needed) >= _NOTHING_MMOLC_M2:
        if brought * needed < 0.0:
            verdict = message("claim-other-way")
        elif share is not None and share > 0.0 and not share_told:
            verdict = message(
                "claim-of-the-need",
                share=Measure(Quantity.SHARE, share),
                size="tiny" if share < _TINY else "plain",
            )
    return prose(
        message("claim-adds", brings=brings, amount=worth(brought)),
        None
        if need_told
        else message("claim-needed", needs=brings_of(needed), amount=worth(needed), place=place),
        verdict,
    )


def _settled(claim: ClaimResult, case: Case, words: Words, *, need_told: bool) -> str:
    comment = claim.comment
    parts: tuple[Worded, ...] = (
        balance(
            claim,
            case,
            share_told=_tells_the_share(comment),
            need_told=need_told or _tells_the_need(comment),
        ),
        comment,
        Prose() if tells_the_ph(comment) else reading_words(claim),
    )
    said = " ".join(text for text in (say(part, words) for part in parts) if text)
    paragraph = message("claim-paragraph", material=Product(claim.material), said=Given(said))
    return say(paragraph, words)


def _tells_the_need(comment: Worded) -> bool:
    """True where a comment says already that nothing is needed."""
    if isinstance(comment, str):
        return False
    return any(one.key.startswith("claim-none-needed") for one in _each(comment))


def _tells_the_share(comment: Worded) -> bool:
    if isinstance(comment, str):
        return "%" in comment
    return any(
        {"share", "times"} & one.values.keys() or one.key == "claim-share-fits"
        for one in _each(comment)
    )


def _each(comment: Prose | Message) -> tuple[Message, ...]:
    return comment.sentences if isinstance(comment, Prose) else (comment,)
