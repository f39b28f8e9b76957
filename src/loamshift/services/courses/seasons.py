"""When something may go on over the seasons ahead, how much at once, and when to test."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from loamshift.domain.answer import Application
from loamshift.domain.bed_context import BedContext
from loamshift.domain.material import Material, MaterialGroup
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.wanted_day import wanted_by
from loamshift.services.context.warmth import start_date
from loamshift.services.courses.unjudged import unjudged_since
from loamshift.services.materials.acid import acid_brought_mmolc_m2, acid_course_mmolc_m2
from loamshift.services.materials.caps import product_cap
from loamshift.services.materials.named import material_named
from loamshift.services.products.prices import as_sold, reacting_share_by
from loamshift.tables.lime_share import (
    usual_share,
)
from loamshift.tables.magnesium import MAGNESIAN, is_short_of_magnesium
from loamshift.tables.model import verdict_values
from loamshift.tables.parameters import parameter_values

DAYS_IN_YEAR: Final = 365
TEST_LEAD_D: Final = 14
"""A test is taken this long before the application it decides [d]."""
_CAUSTIC: Final = "caustic-lime"
"""The caution of what burns: ground limestone does the same work safely."""
CLOSER_BELOW: Final = 1.4
"""Small amounts are tried closer together than large ones, by this power [-]."""
NO_LIMIT_G_M2: Final = 10_000.0
"""Stands in where no limit is printed [g/m2]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Seasons:
    """The seasons in which a bed may be worked on.

    ``days`` of each season: its dates, as many as the printed limit of one dose asks for;
    ``tests`` before every season but the first; ``dose_g_m2`` most of the product at once and
    ``capacity_g_m2`` most in each season [g/m2]; ``active_frac`` sulfur, or lime value that
    works, per mass of the product as sold, and ``strength_frac`` that against the product of the
    table [0-1]; ``on`` the day wanted and ``hold`` a year later; ``acted_on`` the day by which
    most of what goes on first has acted, of prills alone.
    """

    acidify: bool
    material: Material
    active_frac: float
    strength_frac: float
    dose_g_m2: float
    capacity_g_m2: tuple[float, ...]
    days: tuple[tuple[date, ...], ...]
    tests: tuple[date, ...]
    on: date
    hold: date
    incorporate_cm: float
    acted_on: date | None

    @property
    def count(self) -> int:
        """Number of seasons."""
        return len(self.days)

    def sizes(self, season: int, amount_g_m2: float) -> tuple[tuple[date, float], ...]:
        """An amount of one season as dated applications within the limit of one dose.

        Parameters
        ----------
        season
            Which, from 0 [index].
        amount_g_m2
            Product, 0 or more; above the capacity it is spread evenly [g/m2].

        Returns
        -------
        tuple
            Day and product [g/m2] of each.
        """
        days = self.days[season]
        if amount_g_m2 <= 0.0:
            return ()
        if amount_g_m2 > self.dose_g_m2 * len(days):
            return tuple((day, amount_g_m2 / len(days)) for day in days)
        left, found = amount_g_m2, []
        for day in days:
            size = min(left, self.dose_g_m2)
            if size > 1e-9:
                found.append((day, size))
            left -= size
        return tuple(found)

    def simulated(self, amounts_g_m2: Sequence[float]) -> tuple[Application, ...]:
        """Amounts of product by season, as the column is to run them.

        Parameters
        ----------
        amounts_g_m2
            One a season; fewer leave the later seasons without [g/m2].
        """
        return tuple(
            Application(
                date=day,
                material=self.material.key,
                rate_g_m2=size * self.strength_frac,
                amount_g=None,
                incorporate_cm=self.incorporate_cm,
                only_if=None,
            )
            for season, amount in enumerate(amounts_g_m2)
            for day, size in self.sizes(season, amount)
        )


def seasons_ahead(context: BedContext, *, acidify: bool) -> Seasons:
    """The seasons in which a bed may be worked on, with dates and limits.

    Parameters
    ----------
    acidify
        True for sulfur, false for lime.

    Notes
    -----
    Seasons follow each other by a year, so that each test falls into the month of the first part
    and sees the year before. What went on within the last year counts against the first season.
    A season too late to act before the day wanted is left out. Prills are looked at until most of
    them have acted, unless the day is given. Sulfur goes on once a season,
    because published rules ask for a test before more: while some lies untested its season goes on,
    and what it leaves of one dose is all that may follow; less than a year before the season after
    the test it is held to what the limit of a year leaves beside that season's full dose. Lime may
    be split half a year apart.

    References
    ----------
    tennessee-blueberries, penn-state-home-garden, own-judgement
    """
    limits = verdict_values()
    material, active = choose_material(context, acidify=acidify)
    table_active = active_share(material, acidify=acidify)
    strength = active / table_active if table_active > 0.0 else 1.0
    cap = product_cap(material, cap_situation=context.cap_situation)
    dose = year = NO_LIMIT_G_M2
    if cap is not None:
        dose = min(one for one in (cap.dose_g_m2, cap.year_g_m2, NO_LIMIT_G_M2) if one is not None)
        year = cap.year_g_m2 if cap.year_g_m2 is not None else dose
        dose, year = dose / strength, year / strength
    wait = int(limits["part_wait_days" if acidify else "lime_part_wait_days"])
    first = start_date(context, acidify=acidify, not_before=context.case.today)
    wanted = _wanted_on(context, first)
    acted = _acted_on(context, material, first)
    if acted is not None and wanted_by(context.case) is None:
        years = math.ceil((acted - first).days / DAYS_IN_YEAR)
        wanted = max(wanted, first + timedelta(days=DAYS_IN_YEAR * years))
    since = unjudged_since(context) if acidify else None
    starts = _starts(context, first, wait, since, wanted=wanted)
    while len(starts) < int(limits["seasons"]):
        begin = starts[-1] if since is not None else first + _years(len(starts) - 1)
        earliest = begin + _years(1)
        after = start_date(context, acidify=acidify, not_before=earliest)
        if after + timedelta(days=wait) > wanted:
            break
        starts.append(after)
    per_season = 1 if acidify else max(1, int(year / dose + 1e-9))
    days = []
    for number, start in enumerate(starts):
        end = min(start + timedelta(days=DAYS_IN_YEAR), wanted)
        if number + 1 < len(starts):
            end = starts[number + 1]
        days.append(_within_season(context, start, end, per_season, wait, acidify=acidify))
    spent = _spent_g_m2(context, material, acidify=acidify, until=starts[0]) / strength
    capacity = [min(year, dose * len(dates)) for dates in days]
    capacity[0] = max(0.0, min(capacity[0], (year if since is None else dose) - spent))
    if since is not None and len(starts) > 1:
        capacity[0] = min(capacity[0], _left_before(first, starts[1], wait, year - capacity[1]))
    return Seasons(
        acidify=acidify,
        material=material,
        active_frac=active,
        strength_frac=strength,
        dose_g_m2=whole_gram(dose),
        capacity_g_m2=tuple(capacity),
        days=tuple(days),
        tests=tuple(start - timedelta(days=TEST_LEAD_D) for start in starts[1:]),
        on=max(wanted, first + timedelta(days=1)),
        hold=max(wanted, first + timedelta(days=1)) + timedelta(days=DAYS_IN_YEAR),
        incorporate_cm=0.0 if context.planted else context.depth_cm,
        acted_on=acted,
    )


def _years(count: int) -> timedelta:
    return timedelta(days=DAYS_IN_YEAR * count)


def _starts(
    context: BedContext, first: date, wait: int, since: date | None, *, wanted: date
) -> list[date]:
    """The first day of the first seasons: where sulfur lies untested its season goes on.

    Parameters
    ----------
    first
        The first day on which more could go on.
    wait
        Days between two applications [d].
    since
        Day of what lies untested.
    wanted
        The day by which all has acted; a season that begins too late for it is left out.
    """
    if since is None:
        return [first]
    today = context.case.today
    soonest = max(since + timedelta(days=DAYS_IN_YEAR), today + timedelta(days=TEST_LEAD_D + 1))
    after = start_date(context, acidify=True, not_before=soonest)
    if after + timedelta(days=wait) > wanted:
        return [first]
    return [first if first + timedelta(days=wait) <= after else today, after]


def _left_before(first: date, after: date, wait: int, spare: float) -> float:
    """The most that may go on before the test of what lies untested [g/m2].

    Parameters
    ----------
    first
        The first day on which more could go on.
    after
        The first day of the season after the test.
    wait
        Days between two applications [d].
    spare
        What the limit of a year leaves beside a full season after the test [g/m2].
    """
    if first + timedelta(days=wait) > after:
        return 0.0
    return math.inf if first + _years(1) <= after else max(spare, 0.0)


def choose_material(context: BedContext, *, acidify: bool) -> tuple[Material, float]:
    """The material of the plan and its active share: what is on hand, else the usual one.

    What is on hand and too slow to act by the day wanted is passed over, and a caustic lime comes
    after one that is none. The usual lime is dolomitic where the soil is short of magnesium.

    Parameters
    ----------
    acidify
        True for sulfur, false for lime.

    Returns
    -------
    tuple of Material and float
        Material, and sulfur or lime value that works per mass of product as sold [0-1].
    """
    group = MaterialGroup.SULFUR if acidify else MaterialGroup.LIME
    short = is_short_of_magnesium(context.case.soil)
    lime = MAGNESIAN if short else "ground limestone, calcitic"
    usual = material_named(
        "elemental sulfur, powder" if acidify else lime, own=context.case.own_materials
    )
    own = [item for item in context.case.on_hand if item.material.group is group]
    own.sort(key=lambda item: _CAUSTIC in item.material.cautions)
    if not own:
        return usual, active_share(usual, acidify=acidify)
    start = start_date(context, acidify=acidify, not_before=context.case.today)
    by = _wanted_on(context, start)
    least = parameter_values("plan")["slow_product_frac"]
    least *= reacting_share_by(context, usual, start=start, by=by)
    for item in own:
        if reacting_share_by(context, item.material, start=start, by=by) >= least:
            sold = as_sold(item.material, purity_pct=item.purity_pct)
            return item.material, active_share(sold, acidify=acidify)
    return usual, active_share(usual, acidify=acidify)


def active_share(material: Material, *, acidify: bool) -> float:
    """Sulfur, or the lime value that works in the field, per mass of a product.

    Returns
    -------
    float
        Share [0-1].
    """
    if acidify:
        return material.elemental_s_frac
    return material.caco3_eq_frac * usual_share(material)


def tidy_amounts(top_g_m2: float, *, count: int, least_g_m2: float = 0.0) -> tuple[float, ...]:
    """Amounts that can be weighed, from nothing to a limit.

    Parameters
    ----------
    top_g_m2
        The limit; never exceeded [g/m2].
    count
        How many at the most, 2 or more [count].
    least_g_m2
        The least worth a day's work; 0 for any [g/m2].

    Returns
    -------
    tuple of float
        Rising from 0, in steps a scale shows [g/m2].

    Examples
    --------
    >>> tidy_amounts(34.18, count=5)
    (0.0, 4.0, 12.0, 22.0, 34.0)
    """
    found = {0.0}
    for number in range(1, count):
        amount = tidy(top_g_m2 * (number / (count - 1)) ** CLOSER_BELOW)
        if amount >= least_g_m2:
            found.add(amount)
    return tuple(sorted(found))


def tidy(amount_g_m2: float) -> float:
    """An amount cut to what one would weigh: never more than given.

    Parameters
    ----------
    amount_g_m2
        0 or more [g/m2].

    Returns
    -------
    float
        In the steps of the table ``plan``: a tenth, 1, 5 or 10 by size [g/m2].
    """
    steps = parameter_values("plan")
    step = steps["tidy_step_4_g_m2"]
    for size in ("3", "2", "1", "0"):
        if amount_g_m2 < steps[f"tidy_below_{size}_g_m2"]:
            step = steps[f"tidy_step_{size}_g_m2"]
    return round(int(amount_g_m2 / step + 1e-6) * step, 1)


def whole_gram(limit_g_m2: float) -> float:
    """A limit cut to what can be weighed, so that a part at the limit is never above it.

    Parameters
    ----------
    limit_g_m2
        The limit [g/m2].

    Returns
    -------
    float
        Whole grams from 10 on, tenths below [g/m2].

    Examples
    --------
    >>> whole_gram(98.64), whole_gram(4.88)
    (98.0, 4.8)
    """
    if limit_g_m2 >= 10.0:
        return float(int(limit_g_m2 + 1e-9))
    return int(10.0 * limit_g_m2 + 1e-9) / 10.0


def _wanted_on(context: BedContext, first: date) -> date:
    """The day wanted, or the end of the seasons from the first application."""
    by = wanted_by(context.case)
    if by is not None and by > first:
        return by
    return first + timedelta(days=DAYS_IN_YEAR * int(verdict_values()["seasons"]))


def _acted_on(context: BedContext, material: Material, first: date) -> date | None:
    """Day by which most of a first application of prills has acted; None for loose grains."""
    if material.intact_diameter_um is None:
        return None
    limits = parameter_values("plan")
    course = acid_course_mmolc_m2(
        material,
        rate_g_m2=1.0,
        soil_temp_c=context.soil_temp_c,
        start=first,
        days=DAYS_IN_YEAR * int(limits["longest_look_years"]),
        ph_water=require_soil(context).ph.ph_water,
        in_pot=context.in_pot,
        incorporated=not context.planted,
    )
    total = acid_brought_mmolc_m2(material, rate_g_m2=1.0, in_pot=context.in_pot)
    there = course >= limits["acted_frac"] * total
    return first + timedelta(days=int(there.argmax()) + 1) if there.any() else None


def _within_season(
    context: BedContext,
    start: date,
    end: date,
    count: int,
    wait: int,
    *,
    acidify: bool,
) -> tuple[date, ...]:
    """Dates within a season, far enough apart and well before the next or the day wanted."""
    found = [start]
    while len(found) < count:
        after = start_date(context, acidify=acidify, not_before=found[-1] + timedelta(days=wait))
        if after + timedelta(days=wait) > end + timedelta(days=TEST_LEAD_D):
            break
        found.append(after)
    return tuple(found)


def _spent_g_m2(context: BedContext, material: Material, *, acidify: bool, until: date) -> float:
    """What went on within the last year, as the plan's own product by its acid or base [g/m2]."""
    sign = 1.0 if acidify else -1.0
    per_gram = sign * acid_brought_mmolc_m2(
        material, rate_g_m2=1.0, in_pot=context.in_pot, land_use=context.nitrogen_use
    )
    if per_gram <= 0.0:
        return 0.0
    brought = sum(
        max(
            sign
            * acid_brought_mmolc_m2(
                one.material,
                rate_g_m2=one.rate_g_m2,
                in_pot=context.in_pot,
                land_use=context.nitrogen_use,
            ),
            0.0,
        )
        for one in context.case.applied
        if (until - one.on).days < DAYS_IN_YEAR
    )
    return brought / per_gram
