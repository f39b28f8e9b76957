"""How much acid or lime the soil takes up, and what printed tables say for the same step."""

from __future__ import annotations

from loamshift.domain.answer import Answer, Band, Decision, Direction, Dose
from loamshift.domain.case import Case
from loamshift.domain.letter import Block, Note, Paragraph, Section
from loamshift.report.letter_words import sentences, whole
from loamshift.report.words import Quantity, Words

_SHARE_WORTH_SAYING = 0.10
_FIRST = {
    Decision.MEASURE_FIRST: "How much, as far as anyone can say now",
    Decision.ELSEWHERE: "How much it would take",
    Decision.LEAVE: "How much it would take",
}


def how_much(answer: Answer, case: Case, *, words: Words) -> Section | None:
    """The dose as a range, per area and for the bed.

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
    lead = sentences(
        _taken_up(band, answer, case, verb=verb, words=words),
        _counted_as(dose),
    )
    blocks: list[Block] = [Paragraph(words.text(lead))]
    more = sentences(_free_lime(dose, words), _published(dose, words))
    if more:
        blocks.append(Paragraph(words.text(more)))
    if dose.provisional:
        blocks.append(Note(_PROVISIONAL, "Provisional"))
    heading = _FIRST.get(answer.verdict.decision, "How much")
    return Section(words.text(heading), tuple(blocks))


_PROVISIONAL = (
    "these figures take the likeliest outcome of a test that has not been made yet. Do not buy "
    "by them."
)


def treated_area_m2(answer: Answer, case: Case) -> float | None:
    """The area that whole amounts are for [m2], as the plan or else the case has it."""
    for part in (*answer.applications, *answer.options):
        if part.amount_g is not None and part.rate_g_m2 > 0.0:
            return part.amount_g / part.rate_g_m2
    return None if case.bed.area_m2 is None else case.bed.area_m2 * case.bed.count


def _band(dose: Dose) -> Band | None:
    if dose.direction is Direction.LIME:
        return dose.lime_as_caco3_g_m2
    return dose.sulfur_as_s_g_m2


def _taken_up(band: Band, answer: Answer, case: Case, *, verb: str, words: Words) -> str:
    depth = case.bed.depth_cm
    soil = "the soil" if depth is None else f"the top {words.depth(depth)}"
    if case.soil.medium.value != "mineral":
        soil = "the mix"
    if answer.dose.direction is Direction.LIME:
        text = f"{soil} {verb} to take up lime, {words.likely(band, Quantity.RATE)}"
    else:
        text = f"{soil} {verb} to take up the acid of sulfur, {words.likely(band, Quantity.RATE)}"
    area = treated_area_m2(answer, case)
    if area is not None:
        total = Band(lo90=band.lo90 * area, mid=band.mid * area, hi90=band.hi90 * area)
        text += f"; for {whole(case)} that is {words.band(total, Quantity.AMOUNT)}"
    return text[0].upper() + text[1:] + "."


def _counted_as(dose: Dose) -> str:
    if dose.direction is Direction.LIME:
        return (
            "That counts lime as pure calcium carbonate; of a coarser or weaker product it "
            "takes more."
        )
    return "That counts pure sulfur, whatever product brings the acid in the end."


def _free_lime(dose: Dose, words: Words) -> str:
    share = dose.carbonate_share
    if dose.direction is not Direction.ACIDIFY or share is None or share <= _SHARE_WORTH_SAYING:
        return ""
    return (
        f"About {words.percent(share)} of it goes on free lime, which has to be used up before "
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
