"""Which numbers of an answer have a sum, and the sum of one of them."""

from __future__ import annotations

import difflib
import re
from collections.abc import Callable, Iterator, Mapping
from functools import partial
from typing import Final

from loamshift.domain.answer import Answer, Direction
from loamshift.domain.case import Case
from loamshift.domain.own_sum import OwnSum
from loamshift.errors import InputError
from loamshift.services.own_sum import claims, counted, need, reading, timing, upkeep, ways, yearly
from loamshift.services.own_sum.applied import part_sum
from loamshift.services.own_sum.opened import OpenedBed, open_bed

Make = Callable[[OpenedBed, str], OwnSum]
ALIASES: Final = {
    "dose": "dose.acid_mmolc_kg.mid",
    "plan": "plan.share_in_range",
    "verdict": "verdict.ph_now",
    "ledger": "ledger.net",
    "upkeep": "upkeep.drift_ph_year",
    "applications": "applications.0.rate_g_m2",
    "plan.parts": "plan.parts.0.rate_g_m2",
    "plan.decides": "plan.decides.0.part_g_m2",
    "options": "options.0.rate_g_m2",
    "claims": "claims.0.share",
    "forecast": "forecast.ph.q50",
}
"""A short key, and the number that stands for all of it."""
_WAYS: Final = (
    "rate_g_m2",
    "amount_g",
    "cost",
    "cost_per_mol_acid",
    "cost_per_kg_caco3_eq",
    "weeks_to_half",
    "ec_rise_ds_m",
)
_CLAIMS: Final = (
    "acid_brought_mmolc_m2",
    "acid_needed_mmolc_m2",
    "share",
    "ph_change_now",
    "ph_change_1_year",
)
_INDEX: Final = re.compile(r"\[(\d+)\]")


class NoSum(InputError):
    """The answer has no number of this name, or none with a sum; ``nearest`` lists keys like it."""

    def __init__(
        self, key: str, name: str, nearest: tuple[str, ...], *, known: tuple[str, ...] = ()
    ) -> None:
        self.key = key
        self.nearest = nearest
        more = f" The nearest it has are {', '.join(nearest)}." if nearest else ""
        first = next(iter((*nearest, *known)), "")
        typed = f"{first} --case CASE.toml" if first else "dose.acid_mmolc_kg"
        super().__init__(
            f"The answer for {name} has no sum for “{key}”.{more} "
            f"For example: loamshift why {typed}"
        )


def own_sum(case: Case, answer: Answer, key: str) -> OwnSum:
    """How one number of an answer came about for its bed.

    Parameters
    ----------
    key
        Key of the answer, with places in lists as ``applications[0].rate_g_m2`` or
        ``applications.0.rate_g_m2``; without a place the first.

    Raises
    ------
    NoSum
        Where this answer has no such number.
    """
    makers = _makers(answer)
    wanted = full_key(key, makers)
    if wanted is None:
        name = f"“{answer.name}”" if answer.name else "this bed"
        raise NoSum(key.strip(), name, _nearest(key, makers), known=tuple(makers))
    return makers[wanted](open_bed(case, answer), wanted)


def own_sums(case: Case, answer: Answer) -> Mapping[str, OwnSum]:
    """Every number of an answer with its sum, in the order of the answer."""
    bed = open_bed(case, answer)
    return {key: make(bed, key) for key, make in _makers(answer).items()}


def own_keys(answer: Answer) -> tuple[str, ...]:
    """The numbers of an answer that have a sum."""
    return tuple(_makers(answer))


def full_key(key: str, known: Mapping[str, object]) -> str | None:
    """The key of a number that a person means.

    Returns
    -------
    str or None
        Its full form; None where there is none.
    """
    plain = _INDEX.sub(r".\1", key.strip().casefold())
    plain = ALIASES.get(plain, plain)
    for tried in (plain, f"{plain}.mid"):
        if tried in known:
            return tried
    stem = plain.removesuffix(".mid")
    return next(
        (one for one in known if re.sub(r"\.\d+(?=\.|$)", "", one).removesuffix(".mid") == stem),
        None,
    )


def _makers(answer: Answer) -> dict[str, Make]:
    """Every number with a sum, with what makes it."""
    return {
        key: make
        for group in (_verdict, _dose, _plan, _applications, _ways, _forecast, _year, _claimed)
        for key, make in group(answer)
    }


def _verdict(answer: Answer) -> Iterator[tuple[str, Make]]:
    if answer.verdict.ph_now is not None:
        yield "verdict.ph_now", reading.ph_now_sum


def _dose(answer: Answer) -> Iterator[tuple[str, Make]]:
    dose = answer.dose
    if dose.direction is Direction.NONE or dose.acid_mmolc_kg is None:
        return
    product = "sulfur_as_s_g_m2" if dose.sulfur_as_s_g_m2 is not None else "lime_as_caco3_g_m2"
    for end in ("mid", "lo90", "hi90"):
        yield f"dose.acid_mmolc_kg.{end}", partial(need.acid_sum, end=end)
        yield f"dose.{product}.{end}", partial(need.product_sum, end=end)
    if dose.carbonate_share is not None:
        yield "dose.carbonate_share", need.share_sum


def _plan(answer: Answer) -> Iterator[tuple[str, Make]]:
    rule = answer.plan
    if rule is None:
        return
    for place, part in enumerate(rule.parts):
        stem = f"plan.parts.{place}"
        yield f"{stem}.rate_g_m2", partial(part_sum, part=part, whole=False)
        if part.amount_g is not None:
            yield f"{stem}.amount_g", partial(part_sum, part=part, whole=True)
    for place, line in enumerate(rule.decides):
        yield f"plan.decides.{place}.part_g_m2", partial(counted.line_sum, line=line)
    for field in counted.SHARES:
        yield f"plan.{field}", partial(counted.share_sum, rule=rule, field=field)
    yield "plan.median_ph", partial(counted.median_sum, rule=rule)


def _applications(answer: Answer) -> Iterator[tuple[str, Make]]:
    if answer.plan is None:
        return
    for place, part in enumerate(answer.applications):
        stem = f"applications.{place}"
        yield f"{stem}.rate_g_m2", partial(part_sum, part=part, whole=False)
        if part.amount_g is not None:
            yield f"{stem}.amount_g", partial(part_sum, part=part, whole=True)


def _ways(answer: Answer) -> Iterator[tuple[str, Make]]:
    for place, option in enumerate(answer.options):
        for field in _WAYS:
            if getattr(option, field) is not None:
                yield f"options.{place}.{field}", partial(ways.way_sum, option=option, field=field)


def _forecast(answer: Answer) -> Iterator[tuple[str, Make]]:
    if answer.too_early_before is not None and answer.plan is not None:
        yield "too_early_before", timing.too_early_sum
    forecast = answer.forecast
    if forecast is None or not forecast.dates:
        return
    on = answer.plan.on if answer.plan is not None else forecast.dates[-1]
    place = max(0, sum(one <= on for one in forecast.dates) - 1)
    for name in ("q50", "q05", "q25", "q75", "q95"):
        yield (
            f"forecast.ph.{name}",
            partial(counted.quantile_sum, forecast=forecast, name=name, place=place),
        )
    yield (
        "forecast.do_nothing.q50",
        partial(counted.quantile_sum, forecast=forecast, name="do_nothing", place=place),
    )


def _year(answer: Answer) -> Iterator[tuple[str, Make]]:
    if answer.ledger is not None:
        for place in range(len(answer.ledger.lines)):
            yield f"ledger.lines.{place}.value", partial(yearly.line_sum, place=place)
        yield "ledger.net", yearly.net_sum
    keeping = answer.upkeep
    if keeping is None:
        return
    yield "upkeep.drift_ph_year", upkeep.drift_sum
    for place, line in enumerate(keeping.feed):
        stem = f"upkeep.feed.{place}"
        yield f"{stem}.rate_g_m2_year", partial(upkeep.feed_sum, line=line, acid=False)
        yield f"{stem}.acid_mmolc_m2_year", partial(upkeep.feed_sum, line=line, acid=True)
    yield "upkeep.net_with_feed_mmolc_m2_year", upkeep.net_sum
    yield "upkeep.sulfur_as_s_g_m2_year", partial(upkeep.closing_sum, sulfur=True)
    yield "upkeep.lime_as_caco3_g_m2_year", partial(upkeep.closing_sum, sulfur=False)
    if keeping.years_water_undoes_dose is not None:
        yield "upkeep.years_water_undoes_dose", upkeep.undone_sum


def _claimed(answer: Answer) -> Iterator[tuple[str, Make]]:
    for place, result in enumerate(answer.claims):
        for field in _CLAIMS:
            if getattr(result, field) is not None:
                yield (
                    f"claims.{place}.{field}",
                    partial(claims.claim_sum, place=place, field=field),
                )


def _nearest(key: str, known: Mapping[str, object]) -> tuple[str, ...]:
    plain = _INDEX.sub(r".\1", key.strip().casefold())
    inside = [name for name in known if plain and plain in name]
    near = difflib.get_close_matches(plain, list(known), n=4, cutoff=0.5)
    return tuple(dict.fromkeys([*near, *inside]))[:4]
