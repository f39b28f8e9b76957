"""What changed between two answers, and what the change comes from."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import fields
from datetime import date, timedelta
from typing import Any, Final

from loamshift.domain.answer import Answer, Band, Forecast
from loamshift.domain.changes import (
    Changes,
    ForecastRow,
    InputChange,
    Maker,
    MakerChange,
    Outcome,
    Plain,
)

_WEEKS: Final = (13, 26, 52, 104, 156, 260, 520, 1040)
"""Weeks after the later of the two days at which the forecasts are compared."""
_NEAR_DAYS: Final = 4
_SAID: Final = frozenset(
    (
        *("answer", "name", "today", "made_by", "verdict", "dose", "wanted", "plan"),
        *("applications", "too_early_before", "retest", "upkeep", "ledger", "cautions", "forecast"),
        *("sources", "balance_error"),
    )
)
"""Keys of the answer that are compared one by one, or that follow from what is."""
_UNTOLD: Final = frozenset(("case", "noticed", "climate"))
"""Keys of a kept case that nobody typed."""
_QUANTITY: Final = re.compile(r"(-?\d+(?:\.\d+)?(?:e[-+]?\d+)?) (\S.*)")
_LONGEST: Final = 120
_DEEPEST: Final = 6
_MOST: Final = 500
"""No case has more entries or changes than that; a file made by hand may."""


def changes(
    old: Answer,
    new: Answer,
    *,
    old_case: Mapping[str, Any] | None = None,
    new_case: Mapping[str, Any] | None = None,
    between: Answer | None = None,
) -> Changes:
    """Everything that differs between two answers.

    Parameters
    ----------
    old_case, new_case
        Their cases as plain data by the keys of the case file; None where not kept.
    between
        The older case answered with the tables and the model of the newer answer, where
        somebody worked that out; it tells apart what came from where.
    """
    inputs = None
    if old_case is not None and new_case is not None:
        inputs = tuple(_input_changes(_told(old_case), _told(new_case), "")[:_MOST])
    before = {caution.code: caution for caution in old.cautions}
    after = {caution.code: caution for caution in new.cautions}
    return Changes(
        name=new.name,
        inputs=inputs,
        makers=_maker_changes(old, new),
        old=_outcome(old),
        new=_outcome(new),
        between=None if between is None else _outcome(between),
        cautions_gained=tuple(after[code] for code in after if code not in before),
        cautions_lost=tuple(before[code] for code in before if code not in after),
        forecast=_forecasts(old, new),
        also=tuple(
            part.name
            for part in fields(Answer)
            if part.name not in _SAID and getattr(old, part.name) != getattr(new, part.name)
        ),
    )


def _told(case: Mapping[str, Any]) -> dict[str, Any]:
    return {key: value for key, value in case.items() if key not in _UNTOLD}


def _input_changes(old: Any, new: Any, path: str, depth: int = 0) -> list[InputChange]:
    """Every key that differs below this path, tables and lists of tables taken apart."""
    if _alike(old, new):
        return []
    if isinstance(old, Mapping) and isinstance(new, Mapping) and depth < _DEEPEST:
        found = []
        for key in dict.fromkeys((*old, *new)):
            here = f"{path}.{key}" if path else str(key)
            found += _input_changes(old.get(key), new.get(key), here, depth + 1)
        return found
    if (_is_table(old) or _is_table(new)) and depth < _DEEPEST and (old is None or new is None):
        return _input_changes(old or {}, new or {}, path, depth)
    if _is_entries(old) or _is_entries(new):
        return _entry_changes(old or [], new or [], path, depth)
    return [InputChange(path=_short(path), old=_plain(old), new=_plain(new))]


def _is_table(value: Any) -> bool:
    return isinstance(value, Mapping)


def _is_entries(value: Any) -> bool:
    return isinstance(value, list) and bool(value) and all(_is_table(part) for part in value)


def _entry_changes(old: Any, new: Any, path: str, depth: int) -> list[InputChange]:
    """Entries that stand in both are passed over; the rest are paired as they come."""
    lists = isinstance(old, list) and isinstance(new, list)
    if not lists or max(len(old), len(new)) > _MOST:
        return [InputChange(path=_short(path), old=_plain(old), new=_plain(new))]
    left = list(enumerate(new, start=1))
    gone = []
    for entry in old:
        same = next((pair for pair in left if _alike(entry, pair[1])), None)
        if same is None:
            gone.append(entry)
        else:
            left.remove(same)
    found: list[InputChange] = []
    if len(gone) == len(left):
        for entry, (number, other) in zip(gone, left, strict=True):
            found += _input_changes(entry, other, f"{path}[{number}]", depth + 1)
        return found
    found += [InputChange(path=_short(path), old=_plain(entry), new=None) for entry in gone]
    for number, entry in left:
        found.append(InputChange(path=_short(f"{path}[{number}]"), old=None, new=_plain(entry)))
    return found


def _alike(old: Any, new: Any) -> bool:
    """Equal, or the same quantity written with more noughts."""
    if isinstance(old, bool) or isinstance(new, bool):
        return old is new
    if old == new:
        return True
    if isinstance(old, str) and isinstance(new, str):
        first, second = _QUANTITY.fullmatch(old), _QUANTITY.fullmatch(new)
        return bool(
            first and second and first[2] == second[2] and float(first[1]) == float(second[1])
        )
    return False


def _plain(value: Any) -> Plain:
    """A value that can be said in one cell."""
    if value is None or isinstance(value, (bool, int, float)):
        return value
    if isinstance(value, Mapping):
        return _short(", ".join(str(_plain(part)) for part in value.values()))
    if isinstance(value, (list, tuple)):
        return _short(", ".join(str(_plain(part)) for part in value[:_LONGEST]))
    return _short(str(value))


def _short(text: str) -> str:
    clean = "".join(char if char.isprintable() else " " for char in text[: 2 * _LONGEST])
    return clean if len(clean) <= _LONGEST else clean[: _LONGEST - 1] + "…"


def _maker_changes(old: Answer, new: Answer) -> tuple[MakerChange, ...]:
    pairs = [(what, getattr(old.made_by, what), getattr(new.made_by, what)) for what in Maker]
    return tuple(
        MakerChange(what=what, old=before, new=after)
        for what, before, after in pairs
        if before != after
    )


def _outcome(answer: Answer) -> Outcome:
    upkeep, ledger, wanted = answer.upkeep, answer.ledger, answer.wanted
    return Outcome(
        decision=answer.verdict.decision,
        because=answer.verdict.because,
        direction=answer.dose.direction.value,
        ph_aim=None if wanted is None else wanted.ph_aim,
        sulfur_as_s_g_m2=answer.dose.sulfur_as_s_g_m2,
        lime_as_caco3_g_m2=answer.dose.lime_as_caco3_g_m2,
        by_forecast_g_m2=_by_forecast(answer),
        applications=answer.applications,
        too_early_before=answer.too_early_before,
        retest=answer.retest,
        drift_ph_year=None if upkeep is None else upkeep.drift_ph_year,
        ledger_net_mmolc_m2_year=None if ledger is None else ledger.net,
        reason=answer.verdict.reason,
        plan=answer.plan,
    )


def _by_forecast(answer: Answer) -> float | None:
    """The amount by the forecast, which only answers kept by 0.1.0 have [g/m2]."""
    amount = answer.dose.by_forecast
    if amount is None:
        return None
    sulfur, lime = amount.sulfur_as_s_g_m2, amount.lime_as_caco3_g_m2
    return lime if sulfur is None else sulfur


def _forecasts(old: Answer, new: Answer) -> tuple[ForecastRow, ...]:
    """Both forecasts at the weeks people ask about, where both reach; else nothing."""
    if old.forecast is None or new.forecast is None:
        return ()
    start = max(old.today, new.today)
    rows = []
    for weeks in _WEEKS:
        first = _week(old.forecast, start + timedelta(weeks=weeks))
        second = _week(new.forecast, start + timedelta(weeks=weeks))
        if first is None or second is None:
            break
        rows.append(
            ForecastRow(
                day=new.forecast.dates[second],
                old=_band(old.forecast, first),
                new=_band(new.forecast, second),
            )
        )
    return tuple(rows)


def _week(forecast: Forecast, day: date) -> int | None:
    if not forecast.dates:
        return None
    near = min(range(len(forecast.dates)), key=lambda week: abs(forecast.dates[week] - day))
    return near if abs(forecast.dates[near] - day).days <= _NEAR_DAYS else None


def _band(forecast: Forecast, week: int) -> Band:
    ph = forecast.ph
    return Band(lo90=ph.q05[week], mid=ph.q50[week], hi90=ph.q95[week])
