"""From rows of record sheets to readings of pots, and what is wrong with the rest."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Final

from loamshift.domain.message import Given, Listed, message
from loamshift.domain.ph import PhMethod
from loamshift.domain.trial import TrialPlan
from loamshift.domain.trial_result import PotReading, Problem, RowRead, Trouble
from loamshift.tables.parameters import parameter_values

_NEAR_DAYS: Final = 2
"""A reading may always be so many days off [d]."""
_MOST_NAMED: Final = 12


@dataclass(frozen=True, slots=True)
class Understood:
    """Readings that can be used, and everything found on the way."""

    readings: tuple[PotReading, ...]
    problems: tuple[Problem, ...]


def understand(plan: TrialPlan, rows: Sequence[RowRead]) -> Understood:
    """The readings of a trial, one for each pot and day; nothing is dropped without its reason."""
    trial = plan.trial
    labels = {place.label.casefold(): place.label for place in plan.places}
    problems: list[Problem] = []
    found: dict[tuple[int, str], list[RowRead]] = defaultdict(list)
    filled: list[int] = []
    for row in rows:
        if row.ph is None:
            continue
        pot = labels.get(row.pot.casefold())
        day = _day_of(plan, row)
        if not row.pot:
            problems.append(_at(plan, row, Trouble.NO_LABEL))
        elif pot is None:
            problems.append(_at(plan, row, Trouble.UNKNOWN_POT))
        elif day is None:
            problems.append(_at(plan, row, Trouble.NO_DAY))
        else:
            if row.on is None:
                filled.append(row.line)
            elif abs((row.on - trial.due(day)).days) > _may_be_off(abs(day)):
                problems.append(_far(plan, row, day))
            found[day, pot].append(row)
    if filled:
        said = message("trial-date-filled", rows=_numbers(filled), count=len(filled))
        problems.append(Problem(kind=Trouble.DATE_FILLED, said=said))
    readings: list[PotReading] = []
    for day in sorted({day for day, _ in found}):
        of_day = {pot: entries for (when, pot), entries in found.items() if when == day}
        of_day, told = _one_method(plan, day, of_day)
        problems += told
        problems += _doubled(plan, day, of_day)
        readings += [_reading(plan, day, pot, entries) for pot, entries in of_day.items()]
    problems += _missing(plan, readings)
    return Understood(tuple(readings), tuple(problems))


def _day_of(plan: TrialPlan, row: RowRead) -> int | None:
    """The day of the trial a row belongs to: as it says, or the nearest to its date."""
    if row.day is not None:
        return row.day
    if row.on is None:
        return None
    after = (row.on - plan.trial.start).days
    return min(plan.trial.days, key=lambda day: abs(day - after))


def _may_be_off(day: int) -> float:
    return max(_NEAR_DAYS, parameter_values("trial")["far_from_day_frac"] * day)


def _at(plan: TrialPlan, row: RowRead, kind: Trouble) -> Problem:
    unit = plan.trial.unit
    said = message("trial-row", trouble=kind.value, row=row.line, pot=Given(row.pot), unit=unit)
    return Problem(kind=kind, said=said, refuses=True)


def _far(plan: TrialPlan, row: RowRead, day: int) -> Problem:
    said = message(
        "trial-far-from-day",
        pot=Given(row.pot),
        unit=plan.trial.unit,
        day=day,
        on=row.on,
        due=plan.trial.due(day),
    )
    return Problem(kind=Trouble.FAR_FROM_DAY, said=said)


def _one_method(
    plan: TrialPlan, day: int, of_day: dict[str, list[RowRead]]
) -> tuple[dict[str, list[RowRead]], list[Problem]]:
    """The readings of a day by the method that most of them have."""
    asked = plan.trial.ph_method
    counted = Counter(row.method or asked for rows in of_day.values() for row in rows)
    if len(counted) < 2:
        return of_day, []
    kept = max(counted, key=lambda method: (counted[method], method is asked))
    left = {
        pot: [row for row in rows if (row.method or asked) is kept] for pot, rows in of_day.items()
    }
    out = [pot for pot, rows in left.items() if not rows]
    others = Listed(tuple(Given(method.value) for method in counted if method is not kept))
    said = message(
        "trial-two-methods",
        day=day,
        kept=Given(kept.value),
        others=others,
        pots=_labels(out) if out else None,
        count=len(out),
        unit=plan.trial.unit,
    )
    problem = Problem(kind=Trouble.TWO_METHODS, said=said, refuses=True)
    return {pot: rows for pot, rows in left.items() if rows}, [problem]


def _doubled(plan: TrialPlan, day: int, of_day: dict[str, list[RowRead]]) -> list[Problem]:
    """Pots that stand twice: where another is missing, one of the two may be that one."""
    twice = [pot for pot, rows in of_day.items() if len(rows) > 1]
    absent = [place.label for place in plan.places if place.label not in of_day]
    problems = []
    for pot in twice:
        lost = len(twice) == len(absent)
        problems.append(
            Problem(
                kind=Trouble.TWICE,
                said=message(
                    "trial-twice",
                    pot=Given(pot),
                    unit=plan.trial.unit,
                    day=day,
                    count=len(of_day[pot]),
                    rows=_numbers([row.line for row in of_day[pot]]),
                    absent=_labels(absent) if lost else None,
                ),
                refuses=lost,
            )
        )
        if lost:
            del of_day[pot]
    return problems


def _reading(plan: TrialPlan, day: int, pot: str, rows: Sequence[RowRead]) -> PotReading:
    """One pot on one day: repeated readings averaged on the pH scale."""
    values = [row.ph for row in rows if row.ph is not None]
    method: PhMethod = rows[0].method or plan.trial.ph_method
    return PotReading(
        pot=pot,
        day=day,
        on=rows[0].on or plan.trial.due(day),
        ph=sum(values) / len(values),
        method=method,
        repeats=len(values),
    )


def _missing(plan: TrialPlan, readings: Sequence[PotReading]) -> list[Problem]:
    """Pots without a reading on a day that was read, and days that were not read at all."""
    read: dict[int, set[str]] = defaultdict(set)
    for one in readings:
        read[one.day].add(one.pot)
    problems = []
    unread = [day for day in plan.trial.days if day not in read]
    if unread and read:
        said = message("trial-days-unread", days=_numbers(unread), count=len(unread))
        problems.append(Problem(kind=Trouble.MISSING, said=said))
    for day in sorted(read):
        out = [place.label for place in plan.places if place.label not in read[day]]
        if out:
            unit = plan.trial.unit
            said = message("trial-missing", day=day, pots=_labels(out), count=len(out), unit=unit)
            problems.append(Problem(kind=Trouble.MISSING, said=said))
    return problems


def _labels(labels: Iterable[str]) -> Listed:
    every = list(labels)
    shown = [Given(label) for label in every[:_MOST_NAMED]]
    return Listed((*shown, *((Given("…"),) if len(every) > _MOST_NAMED else ())))


def _numbers(numbers: Iterable[int]) -> Listed:
    return _labels(str(number) for number in numbers)
