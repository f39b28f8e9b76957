"""Plans that a long table brings with it: what is to go on each bed, and its forecast."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from typing import TYPE_CHECKING, Final

import numpy as np

from loamshift.case.table.open_table import is_planned
from loamshift.case.table.row_case import case_of
from loamshift.core.column_layout import HIGHEST_TABLE_PH, LOWEST_TABLE_PH
from loamshift.domain.answer import Application
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError, fault
from loamshift.errors import CaseError, Fault, InputError
from loamshift.services.context.build_context import build_context
from loamshift.services.context.readings import season_readings
from loamshift.services.many.outcome import end_in_range

if TYPE_CHECKING:
    from loamshift.domain.bed_context import BedContext
    from loamshift.domain.case import Case
    from loamshift.services.many.outcome import Outcome

_AS_PAST: Final = timedelta(days=50 * 366)
"""Planned parts are read as past ones of a day so much later."""
_DAYS_IN_WEEK: Final = 7


def plan_apart(
    values: Mapping[str, object],
) -> tuple[dict[str, object], dict[str, object]]:
    """The values of the case, and those of the plan it comes with."""
    planned = {path: value for path, value in values.items() if is_planned(path)}
    return {path: value for path, value in values.items() if path not in planned}, planned


def plan_of(
    case: Case, values: Mapping[str, object], planned: Mapping[str, object]
) -> tuple[Application, ...]:
    """The plan of a row, read as what was put on is read.

    Parameters
    ----------
    values
        Of the case, by path.
    planned
        Of the plan, by path.

    Raises
    ------
    CaseError
        With everything that is wrong with it, and every part planned for a day before today.
    """
    others = {path: value for path, value in values.items() if not path.startswith("applied[")}
    parts = {path.replace("planned[", "applied[", 1): value for path, value in planned.items()}
    later = case.today + _AS_PAST
    try:
        read = case_of(case.name, {**others, **parts, "today": later}, today=later)
    except CaseError as error:
        raise CaseError([_of_plan(one) for one in error.faults], source=case.name) from None
    late = [
        fault(f"planned[{number}].date", message("table-planned-past"), given=one.on.isoformat())
        for number, one in enumerate(read.applied, start=1)
        if one.on < case.today
    ]
    if late:
        raise CaseError(late, source=case.name)
    return tuple(
        Application(
            date=one.on,
            material=one.material.key,
            rate_g_m2=one.rate_g_m2,
            amount_g=None,
            incorporate_cm=one.incorporated_cm,
            only_if=None,
        )
        for one in read.applied
    )


def _of_plan(one: Fault) -> Fault:
    return replace(one, path=one.path.replace("applied[", "planned[", 1))


@dataclass(frozen=True, slots=True, kw_only=True)
class PlannedBed:
    """A bed with its plan, to be forecast with others; ``place`` among the outcomes of a block."""

    place: int
    context: BedContext
    plan: tuple[Application, ...]
    seed: int


def planned_bed(
    case: Case, plan: tuple[Application, ...], *, place: int, seed: int
) -> PlannedBed | None:
    """A bed ready to be forecast; None where no forecast can be made of it.

    Raises
    ------
    WordedError
        For a bed with earlier readings, which only a forecast of its own takes in.
    """
    context = build_context(case)
    if context.soil is None:
        return None
    if len(season_readings(case)) > 1:
        raise WordedError(message("table-planned-readings"))
    if not LOWEST_TABLE_PH < context.soil.ph.ph_water < HIGHEST_TABLE_PH:
        return None
    return PlannedBed(place=place, context=context, plan=plan, seed=seed)


def foresee(
    beds: Sequence[PlannedBed],
    outcomes: Sequence[Outcome],
    *,
    members: int,
    years: int,
    device: str,
) -> dict[int, Outcome | InputError]:
    """The outcomes of beds with what their plans will come to, by their places.

    Parameters
    ----------
    outcomes
        Of the block, in order.
    device
        Where the column runs: ``cpu`` or ``cuda``.

    Raises
    ------
    DeviceError
        Where the card is not there, is too small or was lost.

    Notes
    -----
    Beds side by side; one that cannot be worked out stops no other.
    """
    from loamshift.services.many.forecast import Device, forecast_many  # loads the compiler
    from loamshift.services.many.forecast_beds import many_beds

    try:
        found = forecast_many(
            many_beds([one.context for one in beds]),
            [one.plan for one in beds],
            seeds=np.array([one.seed for one in beds], dtype=np.int64),
            years=years,
            members=members,
            device=Device(device),
        )
    except InputError as error:
        if len(beds) == 1:
            return {beds[0].place: error}
        each = (
            foresee([one], outcomes, members=members, years=years, device=device) for one in beds
        )
        return {place: outcome for one in each for place, outcome in one.items()}
    weeks = found.ph.shape[2] - 1
    told = {
        one.place: replace(
            outcomes[one.place],
            forecast_on=_after(one.context.case.today, weeks),
            ph_lo90=float(ph[0, -1]),
            ph_mid=float(ph[2, -1]),
            ph_hi90=float(ph[4, -1]),
        )
        for one, ph in zip(beds, found.ph, strict=True)
    }
    return {place: replace(one, planned_ends=end_in_range(one)) for place, one in told.items()}


def _after(today: date, weeks: int) -> date:
    return today + timedelta(days=_DAYS_IN_WEEK * weeks)
