"""The sums beside the sections of a letter: one for each, without running the beds again."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace

from loamshift.domain.answer import Answer, Direction
from loamshift.domain.case import Case
from loamshift.domain.message import Prose, message, prose, rate
from loamshift.domain.own_sum import NOTHING, Origin, OwnSum, SumInput, SumStep, SumUnit
from loamshift.services.courses.seasons import Seasons, seasons_ahead
from loamshift.services.own_sum import claims, counted, need, upkeep, yearly
from loamshift.services.own_sum import inputs as of
from loamshift.services.own_sum.applied import limit_of, product_steps
from loamshift.services.own_sum.ledger_lines import ledger_steps
from loamshift.services.own_sum.opened import OpenedBed, open_bed


def margin_sums(case: Case, answer: Answer) -> Mapping[str, OwnSum]:
    """The sum that belongs beside each section of a letter, by the topic of the section.

    Answers in a few milliseconds: nothing is simulated again, so what earlier readings taught
    about the soil stands in through the figures of the answer.

    Returns
    -------
    mapping
        Topic (``need``, ``plan``, ``decides``, ``expect``, ``undo``, ``keep``, ``claims``) to its
        sum; a topic without one is left out. ``key`` of a sum opens it whole.
    """
    bed = open_bed(case, answer, learned=False)
    made: tuple[tuple[str, Callable[[OpenedBed], Iterator[OwnSum]]], ...] = (
        ("need", _need),
        ("plan", _plan),
        ("decides", _decides),
        ("expect", _expect),
        ("undo", _undo),
        ("keep", _keep),
        ("claims", _claims),
    )
    return {topic: own for topic, make in made for own in make(bed)}


def _need(bed: OpenedBed) -> Iterator[OwnSum]:
    dose = bed.answer.dose
    band = dose.sulfur_as_s_g_m2 if bed.acidify else dose.lime_as_caco3_g_m2
    if dose.direction is Direction.NONE or dose.acid_mmolc_kg is None or band is None:
        return
    product = "sulfur_as_s_g_m2" if bed.acidify else "lime_as_caco3_g_m2"
    key = f"dose.{product}.mid"
    if not _learned(bed):
        yield need.product_sum(bed, key, "mid")
        return
    mass, gram = of.mass_step(bed), of.gram(acidify=bed.acidify)
    acid = SumInput(
        symbol="n",
        name=message("why-in-need"),
        value=abs(dose.acid_mmolc_kg.mid),
        unit=SumUnit.MMOLC_KG,
        origin=Origin.STEP,
        row="dose.acid_mmolc_kg.mid",
    )
    value = acid.value * mass.value * gram.value
    way = "acidify" if bed.acidify else "lime"
    step = SumStep(
        says=message("why-step-pure", way=way),
        symbol="P",
        value=value,
        unit=SumUnit.G_M2,
        formula="{P} = {n} × {m} × {g}",
        inputs=(acid, of.before(mass, message("why-in-mass")), gram),
        result=rate(value),
    )
    yield OwnSum(
        key=key,
        title=message("why-sum-sulfur" if bed.acidify else "why-sum-lime"),
        steps=(mass, step),
        answer_value=band.mid,
        sure=prose(
            message("why-sure-need", range=rate(band.lo90, high=band.hi90, best=band.mid), way=way)
        ),
        narrow=prose(message("why-narrow-test")),
        source_keys=need.need_source_keys(),
    )


def _plan(bed: OpenedBed) -> Iterator[OwnSum]:
    parts = bed.answer.applications
    if bed.answer.plan is None or not parts:
        return
    seasons = seasons_ahead(bed.context, acidify=bed.acidify)
    steps = product_steps(bed, seasons)
    if not steps:
        return
    yield OwnSum(
        key="applications.0.rate_g_m2",
        title=message("why-sum-bag", way="acidify" if bed.acidify else "lime"),
        steps=steps,
        answer_value=None,
        sure=_limit(bed, seasons),
        narrow=prose(message("why-narrow-bag")),
        source_keys=tuple(one.source_key for one in steps[0].inputs if one.source_key),
    )


def _limit(bed: OpenedBed, seasons: Seasons) -> Prose:
    found = limit_of(seasons, bed.context)
    if found is None:
        return prose(message("why-sure-bag"))
    cap, per_product = found
    return prose(message("why-sure-limit", limit=rate(cap.limit_g_m2 / per_product), per=cap.per))


def _decides(bed: OpenedBed) -> Iterator[OwnSum]:
    rule = bed.answer.plan
    if rule is not None and rule.decides:
        giving = (place for place, line in enumerate(rule.decides) if line.part_g_m2 > 0.0)
        place = next(giving, 0)
        own = counted.line_sum(bed, f"plan.decides.{place}.part_g_m2", rule.decides[place])
        yield replace(own, aside=NOTHING)


def _expect(bed: OpenedBed) -> Iterator[OwnSum]:
    rule = bed.answer.plan
    if rule is not None and bed.answer.wanted is not None:
        yield counted.share_sum(bed, "plan.share_in_range", rule, "share_in_range")


def _undo(bed: OpenedBed) -> Iterator[OwnSum]:
    ledger = bed.answer.ledger
    if ledger is None or not ledger.lines:
        return
    lines = list(ledger_steps(bed))
    widest = max(range(len(ledger.lines)), key=lambda place: abs(ledger.lines[place].value))
    if widest < len(lines):
        yield yearly.line_sum(bed, f"ledger.lines.{widest}.value", widest)


def _keep(bed: OpenedBed) -> Iterator[OwnSum]:
    keeping = bed.answer.upkeep
    if keeping is None:
        return
    if keeping.sulfur_as_s_g_m2_year > 0.0:
        yield upkeep.closing_sum(bed, "upkeep.sulfur_as_s_g_m2_year", sulfur=True)
    elif keeping.lime_as_caco3_g_m2_year > 0.0:
        yield upkeep.closing_sum(bed, "upkeep.lime_as_caco3_g_m2_year", sulfur=False)
    elif keeping.feed:
        key = "upkeep.feed.0.rate_g_m2_year"
        yield upkeep.feed_sum(bed, key, keeping.feed[0], acid=False)


def _claims(bed: OpenedBed) -> Iterator[OwnSum]:
    results = bed.answer.claims
    if results and results[0].share is not None:
        yield claims.claim_sum(bed, "claims.0.share", 0, "share")


def _learned(bed: OpenedBed) -> bool:
    return bed.answer.refit is not None and bed.answer.refit.used
