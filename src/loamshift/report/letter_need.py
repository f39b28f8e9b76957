"""How much, and why: the need as a range, what goes on first, and what published tables give."""

from __future__ import annotations

from collections.abc import Mapping

from loamshift.domain.answer import Answer, Band, Decision, Direction, Dose
from loamshift.domain.case import Case
from loamshift.domain.letter import Block, Note, Paragraph, Section
from loamshift.domain.material import Material
from loamshift.domain.message import (
    Measure,
    Message,
    Product,
    Quantity,
    amount,
    message,
    rate,
)
from loamshift.report.bed_names import treated_area_m2, whole_bed
from loamshift.report.headline import sure_parts
from loamshift.report.holding import undoes
from loamshift.report.lime_taken import lime_taken
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.tables.lime_share import against_usual
from loamshift.tables.materials import load_materials

_SHARE_WORTH_SAYING = 0.10
_CLEARLY_LESS = 0.9
"""A first application below this share of the need is said to be smaller on purpose."""
_HEADINGS = {
    Decision.MEASURE_FIRST: "need-heading-provisional",
    Decision.ELSEWHERE: "need-heading-would",
    Decision.LEAVE: "need-heading-would",
    Decision.STOP: "need-heading-would",
}


def how_much(answer: Answer, case: Case, *, words: Words) -> Section | None:
    """The need as a range, per area and for the bed, and what goes on of it first."""
    dose = answer.dose
    band = _band(dose)
    if dose.direction is Direction.NONE or band is None:
        return None
    first = [] if answer.verdict.decision in _HEADINGS else _first(answer, case, band)
    paragraphs = (
        [*_need(band, answer, case, words), message("need-pure", of=_of(dose))],
        first,
        [one for one in (_free_lime(dose), *_published(dose, band)) if one is not None],
    )
    blocks: list[Block] = [
        Paragraph(" ".join(say(one, words) for one in told)) for told in paragraphs if told
    ]
    if dose.provisional:
        label = say(message("need-provisional-label"), words)
        blocks.append(Note(say(message("need-provisional"), words), label))
    heading = message(_HEADINGS.get(answer.verdict.decision, "need-heading"))
    return Section(say(heading, words), tuple(blocks))


def first_as_pure_g_m2(answer: Answer, own: Mapping[str, Material] | None = None) -> float | None:
    """What goes on whatever a test reads, as pure sulfur or calcium carbonate.

    Parameters
    ----------
    own
        Products of the case known by their label, by key.

    Returns
    -------
    float or None
        The amount [g/m2]; None where a material brings neither, or nothing goes on. Of lime of
        unknown grade only what counts of it against lime of a known one.
    """
    known, total = {**load_materials(), **(own or {})}, 0.0
    for part in sure_parts(answer):
        material = known.get(part.material)
        if material is None:
            return None
        lime = answer.dose.direction is Direction.LIME
        share = material.caco3_eq_frac if lime else material.elemental_s_frac
        if share <= 0.0:
            return None
        total += part.rate_g_m2 * share * (against_usual(material) if lime else 1.0)
    return total or None


def _of(dose: Dose) -> str:
    return "lime" if dose.direction is Direction.LIME else "sulfur"


def _band(dose: Dose) -> Band | None:
    if dose.direction is Direction.LIME:
        return dose.lime_as_caco3_g_m2
    return dose.sulfur_as_s_g_m2


def _need(band: Band, answer: Answer, case: Case, words: Words) -> list[Message]:
    wide = words.rate(band.lo90) != words.rate(band.hi90)
    told = [message("need-mid", of=_of(answer.dose), mid=rate(band.mid))]
    if wide and band.lo90 <= 0.0 < band.hi90:
        told.append(message("need-range-from-nothing", high=rate(band.hi90, best=band.mid)))
    elif wide:
        told.append(message("need-range", range=rate(band.lo90, high=band.hi90, best=band.mid)))
    area = treated_area_m2(answer, case)
    if area is None:
        return told
    mid = amount(band.mid * area)
    if not wide or band.lo90 <= 0.0:
        told.append(message("need-whole-mid", whole=whole_bed(case), mid=mid))
        return told
    spread = amount(band.lo90 * area, high=band.hi90 * area, best=band.mid * area)
    told.append(message("need-whole", whole=whole_bed(case), mid=mid, range=spread))
    return told


def _first(answer: Answer, case: Case, band: Band) -> list[Message]:
    """What goes on first, what it is worth, and why it differs from the need."""
    parts = sure_parts(answer)
    if not parts:
        return []
    mine = [part for part in parts if part.material == parts[0].material]
    amounts = [part.amount_g for part in mine if part.amount_g is not None]
    told = [
        message(
            "need-first",
            rate=rate(sum(part.rate_g_m2 for part in mine)),
            product=Product(parts[0].material),
            amount=amount(sum(amounts)) if len(amounts) == len(mine) else None,
            whole=whole_bed(case),
        )
    ]
    told += lime_taken(parts[0].material, case)
    pure = first_as_pure_g_m2(answer, case.own_materials)
    if pure is None:
        return told
    bought = sum(part.rate_g_m2 for part in parts)
    if abs(pure - bought) > 0.03 * bought:
        told.append(message("need-first-pure", pure=rate(pure), of=_of(answer.dose)))
    if answer.plan is None or not answer.plan.decides:
        return told
    if pure < _CLEARLY_LESS * band.mid:
        told.append(message("need-smaller"))
    elif pure > band.mid / _CLEARLY_LESS:
        undone = _is_undone(answer) and undoes(answer)
        told.append(message("need-larger", why="undone" if undone else "slow"))
    return told


def _is_undone(answer: Answer) -> bool:
    """True where the year works against the plan."""
    net = 0.0 if answer.ledger is None else answer.ledger.net
    return net > 0.0 if answer.dose.direction is Direction.LIME else net < 0.0


def _free_lime(dose: Dose) -> Message | None:
    if not _takes_lime(dose):
        return None
    return message("need-free-lime", share=Measure(Quantity.SHARE, dose.carbonate_share or 0.0))


def _takes_lime(dose: Dose) -> bool:
    """True where a share of the acid worth naming goes into free lime."""
    share = dose.carbonate_share or 0.0
    return dose.direction is Direction.ACIDIFY and share > _SHARE_WORTH_SAYING


def _published(dose: Dose, band: Band) -> list[Message]:
    spread = dose.published_g_m2
    if spread is None or spread.n_sources < 1:
        return []
    told = message(
        "need-published",
        of=_of(dose),
        n=spread.n_sources,
        range=rate(spread.low, high=spread.high, best=band.mid),
    )
    if _takes_lime(dose) and spread.high < band.lo90:
        return [told, message("need-published-no-lime")]
    return [told]
