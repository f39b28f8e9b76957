"""What to look at before anything is spread: signs, wetness, metals, subsoil, doubtful readings."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from loamshift.domain.answer import Answer, Decision, Direction, Reason, RootsBelow, Worded
from loamshift.domain.case import BedKind, Case, Drainage, Sign, Site
from loamshift.domain.letter import Items, Matter, Section, Sheet
from loamshift.domain.message import Listed, Message, choice, depth, message
from loamshift.domain.ph import PhMethod
from loamshift.domain.rules import CautionKind
from loamshift.report.messages import say, say_sentence
from loamshift.report.words import Words
from loamshift.tables.rules import load_cautions

_MOST: Final = 3
"""So many stand on the front sheet [count]."""
_WET_FEET: Final = "wet-feet"
_CONTRADICT: Final = "check-readings-contradict"
_ROUGH: Final = (choice(PhMethod.PROBE.value), choice(PhMethod.STRIP.value))
_SCAB: Final = "potato-scab"
_PEAT: Final = "check-peat"
_BAD_BELOW: Final = (RootsBelow.ALUMINIUM, RootsBelow.TOO_LOW, RootsBelow.TOO_HIGH)


def look_first(answer: Answer, case: Case, *, words: Words) -> Section | None:
    """What decides before the pH does, for the front sheet; None where nothing was told of it.

    Notes
    -----
    A bed that is stopped has its steps, and its cause is known: nothing stands before them.
    """
    if answer.verdict.decision is Decision.STOP:
        return None
    told = [say_sentence(one, words) for one in _told(answer, case)][:_MOST]
    if not told:
        return None
    heading = say(message("front-look-first"), words)
    return Section(heading, (Items(tuple(told)),), Matter.BODY, Sheet.FRONT)


def lime_around(case: Case) -> Message | None:
    """That the forecast does not count what lies around a bed, and which way that goes.

    Returns
    -------
    Message or None
        None where nothing that gives lime was told of.
    """
    if not case.bed.surroundings or case.bed.kind is BedKind.CONTAINER:
        return None
    names = tuple(
        message("front-around-one", what=around.value) for around in case.bed.surroundings
    )
    return message("front-around", what=Listed(names))


def _told(answer: Answer, case: Case) -> Iterator[Worded]:
    rules = load_cautions()
    wet = _waterlogged(answer, case)
    if wet:
        yield message("front-wet-first")
    limes = answer.dose.direction is Direction.LIME
    for caution in answer.cautions:
        rule = rules.get(caution.code)
        if rule is None or not caution.short or (wet and caution.code == _WET_FEET):
            continue
        if rule.kind is CautionKind.SIGN or (limes and rule.kind is CautionKind.AROUND):
            yield caution.short
    if answer.verdict.decision is Decision.ELSEWHERE:
        yield from (one.short for one in answer.cautions if one.code == _SCAB and one.short)
    if _is_short_of_iron(answer, case):
        yield message("front-iron-now")
    if limes and any(_says(row.comment, _PEAT) for row in answer.findings):
        yield message("front-peat")
    if any(_says(row.comment, _CONTRADICT) for row in answer.findings):
        rough = any(_rough_against_careful(row.comment) for row in answer.findings)
        yield message("front-readings-differ", rough="yes" if rough else "no")
    below = () if answer.subsoil is None else answer.subsoil.layers
    bad = [layer for layer in below if layer.roots in _BAD_BELOW]
    if bad:
        way = "high" if bad[0].roots is RootsBelow.TOO_HIGH else "acid"
        yield message("front-below", depth=depth(min(one.top_cm for one in bad)), way=way)
    if case.bed.site in (Site.OLD_URBAN, Site.OLD_ORCHARD):
        yield message("front-metals")


def _is_short_of_iron(answer: Answer, case: Case) -> bool:
    """Yellow young leaves above the range of the plants, where the pH is left as it is."""
    wanted, now = answer.wanted, answer.verdict.ph_now
    if wanted is None or now is None or answer.verdict.decision is not Decision.LEAVE:
        return False
    return Sign.YELLOW_YOUNG in case.bed.signs and now > wanted.ph_high


def _waterlogged(answer: Answer, case: Case) -> bool:
    """Wet ground where no sulfur is meant: of sulfur the verdict itself speaks."""
    wet = case.bed.drainage is Drainage.WATERLOGGED
    said = answer.verdict.reason is Reason.WATERLOGGED
    return wet and not said and answer.dose.direction is not Direction.ACIDIFY


def _rough_against_careful(comment: Worded) -> bool:
    """True where one of two readings that differ is a strip's or probe's and one a laboratory's."""
    for told in getattr(comment, "sentences", (comment,)):
        if isinstance(told, Message) and told.key == _CONTRADICT:
            pair = [one for one in told.values.values() if isinstance(one, Message)]
            return sum(one.values.get("method") in _ROUGH for one in pair) == 1
    return False


def _says(comment: Worded, key: str) -> bool:
    sentences = getattr(comment, "sentences", (comment,))
    return any(getattr(one, "key", "") == key for one in sentences)
