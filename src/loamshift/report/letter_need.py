"""How much goes on; behind it what the soil takes up and what printed tables say of the step."""

from __future__ import annotations

from loamshift.domain.answer import Answer, Application, Band, Decision, Direction, Dose, Option
from loamshift.domain.case import Case
from loamshift.domain.letter import Block, Note, Paragraph, Section
from loamshift.domain.soil import Medium
from loamshift.report.letter_first import first_as_pure_g_m2, goes_on
from loamshift.report.letter_words import plants_wanted, sentences, whole
from loamshift.report.words import Quantity, Words

_SHARE_WORTH_SAYING = 0.10
_CLEARLY_LESS = 0.9
"""A first application below this share of the need is said to be smaller on purpose."""
_FIRST = {
    Decision.MEASURE_FIRST: "How much, as far as anyone can say now",
    Decision.ELSEWHERE: "How much it would take",
    Decision.LEAVE: "How much it would take",
}


def how_much(answer: Answer, case: Case, *, words: Words) -> Section | None:
    """What goes on, and the need behind it as a range, per area and for the bed.

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
        Nothing where no dose was worked out [object].
    """
    dose = answer.dose
    band = _band(dose)
    if dose.direction is Direction.NONE or band is None:
        return None
    verb = "would have" if answer.verdict.decision in _FIRST else "has"
    first = goes_on(answer, case, words)
    blocks: list[Block] = [Paragraph(words.text(first))] if first else []
    need = sentences(
        _taken_up(band, answer, case, verb=verb, bold=not first, words=words),
        _counted_as(dose),
        _less_or_more(answer, band),
    )
    blocks.append(Paragraph(words.text(need)))
    more = sentences(_free_lime(dose, words), _published(dose, words))
    if more:
        blocks.append(Paragraph(words.text(more)))
    if dose.provisional:
        blocks.append(Note(_PROVISIONAL, "Provisional"))
    heading = _FIRST.get(answer.verdict.decision, "How much")
    return Section(words.text(heading), tuple(blocks))


_PROVISIONAL = (
    "These figures suppose that the test still to be made comes out as expected. Do not buy by "
    "them yet."
)


def _less_or_more(answer: Answer, band: Band) -> str:
    """Why what goes on first differs from the need, where a rule decides about the rest."""
    first = first_as_pure_g_m2(answer)
    if answer.plan is None or not answer.plan.decides or first is None:
        return ""
    if first < _CLEARLY_LESS * band.mid:
        return (
            "The first application is smaller on purpose: more can follow after a test, but none "
            "can be taken out."
        )
    if first > band.mid / _CLEARLY_LESS and _is_undone(answer):
        return "More than that goes on, because part of it will be undone every year."
    return ""


def _is_undone(answer: Answer) -> bool:
    """True where the year works against the plan."""
    net = 0.0 if answer.ledger is None else answer.ledger.net
    return net > 0.0 if answer.dose.direction is Direction.LIME else net < 0.0


def treated_area_m2(answer: Answer, case: Case) -> float | None:
    """The area that whole amounts are for [m2], as the plan or else the case has it."""
    parts: tuple[Application | Option, ...] = (*answer.applications, *answer.options)
    for part in parts:
        if part.amount_g is not None and part.rate_g_m2 > 0.0:
            return part.amount_g / part.rate_g_m2
    return None if case.bed.area_m2 is None else case.bed.area_m2 * case.bed.count


def _band(dose: Dose) -> Band | None:
    if dose.direction is Direction.LIME:
        return dose.lime_as_caco3_g_m2
    return dose.sulfur_as_s_g_m2


def _taken_up(
    band: Band, answer: Answer, case: Case, *, verb: str, bold: bool, words: Words
) -> str:
    depth = case.bed.depth_cm
    soil = "the soil" if depth is None else f"the top {words.depth(depth)}"
    if case.soil.medium is not Medium.MINERAL:
        soil = "the mix"
    lime = answer.dose.direction is Direction.LIME
    of = "lime" if lime else "sulfur"
    mark = "**" if bold else ""
    acid = "" if lime else "the acid of "
    text = (
        f"{_goal(case, lime=lime, words=words)} {soil} {verb} to take up {acid}"
        f"{mark}{_range(band, Quantity.RATE, words)} of {of}{mark}"
    )
    if _may_be_none(band):
        text += ", perhaps none at all"
    if words.rate(band.lo90) != words.rate(band.hi90):
        text += f", as likely above {words.rate(band.mid)} as below"
    area = treated_area_m2(answer, case)
    if area is not None:
        total = Band(lo90=band.lo90 * area, mid=band.mid * area, hi90=band.hi90 * area)
        text += f"; for {whole(case)} that is {_range(total, Quantity.AMOUNT, words)}"
    return text + "."


def _goal(case: Case, *, lime: bool, words: Words) -> str:
    plants = plants_wanted(case, words)
    if plants:
        return f"To suit {plants},"
    if case.aim.target_ph is not None:
        return f"To reach pH {words.ph(case.aim.target_ph)},"
    return f"To come {'up' if lime else 'down'} that far,"


def _may_be_none(band: Band) -> bool:
    return band.lo90 <= 0.0 < band.hi90


def _range(band: Band, quantity: Quantity, words: Words) -> str:
    if _may_be_none(band):
        return f"up to {words.say(band.hi90, quantity)}"
    return words.band(band, quantity)


def _counted_as(dose: Dose) -> str:
    if dose.direction is Direction.LIME:
        return (
            "Lime is counted as pure calcium carbonate; of a coarse or weak product it takes more."
        )
    return "These are weights of pure sulfur, whatever product brings the acid."


def _free_lime(dose: Dose, words: Words) -> str:
    share = dose.carbonate_share
    if dose.direction is not Direction.ACIDIFY or share is None or share <= _SHARE_WORTH_SAYING:
        return ""
    return (
        f"About {words.percent(share)} of that goes on free lime, which has to be used up before "
        "the pH moves for good."
    )


def _published(dose: Dose, words: Words) -> str:
    spread = dose.published_g_m2
    if spread is None or spread.n_sources < 1:
        return ""
    what = "lime" if dose.direction is Direction.LIME else "sulfur"
    band = Band(lo90=spread.low, mid=spread.low, hi90=spread.high)
    said = words.band(band, Quantity.RATE)
    if spread.n_sources == 1:
        return f"The one printed {what} table that covers such a soil and step says {said}."
    text = f"Printed {what} tables for such a soil and step say {said}"
    if not said.startswith("about"):
        text = text.replace(" say ", " run from ")
    return f"{text} ({spread.n_sources} sources)."
