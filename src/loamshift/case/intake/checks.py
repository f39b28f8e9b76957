"""Whether the figures of one sample can be true together, and what a laboratory leaves open."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import date
from typing import Final

import numpy as np
import numpy.typing as npt

from loamshift.case.intake.cations import cation_sum
from loamshift.case.intake.columns import Values
from loamshift.case.intake.headings import plain_words
from loamshift.case.intake.keys import ALWAYS_TOLD, BUFFERS, CARBON, DAY, DEPTH, FIZZ, IN_WATER, PH
from loamshift.case.intake.proposal import Finding
from loamshift.case.intake.rows import DAY_KEY, DEPTH_KEY, KEEP, LEAVE_OUT, Filled
from loamshift.case.intake.understood import Understood
from loamshift.domain.decision import Severity
from loamshift.domain.field_name import field_in_text
from loamshift.domain.message import Given, Listed, Message, Value, message, number, times

Mask = npt.NDArray[np.bool_]
SWAPPED_KEY: Final = "ph: order"
_LIMY_PH: Final = 7.0
_ACID_PH: Final = 5.0
"""Above the one hardly any crop is limed, below the other most are (common practice)."""
_SUM_OFF: Final = 5.0
"""How far sand, silt and clay may be from 100 [%]."""
_OM_OVER_OC: Final = (1.4, 2.5)
"""Organic matter over organic carbon (Pribyl 2010, Geoderma 156:75-83)."""
_FURROW_CM: Final = (15.0, 18.0)
"""6 to 7 inches, the depth of the acre furrow slice of 2,000,000 lb."""
_VOLUME: Final = ("mg/L", "cmolc/dm3", "mmolc/dm3", "g/dm3")
_AREA: Final = ("lb/ac", "kg/ha")
_OXIDES: Final = ("cao", "mgo", "k2o", "na2o", "p2o5")
_SALT: Final = ("CaCl2", "KCl")


def checks(filled: Filled, today: date | None, told: Mapping[str, str]) -> Iterator[Finding]:
    """Every check of one table, in order of what it is worth; what is in doubt is held back."""
    yield from _depth_and_day(filled, today)
    yield from _two_ph(filled, told.get(SWAPPED_KEY) == KEEP)
    yield from _acid_and_lime(filled)
    yield from _lime_against_ph(filled)
    yield from _exchange(filled)
    yield from _organic(filled)
    yield from _texture(filled)
    yield from _of_columns(filled)
    yield from _rows_skipped(filled)
    yield from _limits(filled)


def _of_rows(
    filled: Filled,
    code: str,
    found: Mask | Sequence[int],
    *,
    severity: Severity = Severity.CAUTION,
    question: Message | None = None,
    key: str = "",
    choices: tuple[str, ...] = (),
    **values: Value,
) -> Iterator[Finding]:
    """A finding about the rows that a mask marks, if it marks any."""
    where = np.flatnonzero(found).tolist() if isinstance(found, np.ndarray) else list(found)
    if not where:
        return
    told: dict[str, Value] = {"count": len(where), "sample": Given(filled.names[where[0]])}
    yield Finding(
        code=code,
        severity=severity,
        said=Message(f"intake-{code}", {**told, **values}),
        question=question,
        key=key,
        choices=choices,
        places=filled.places(where),
        count=len(where),
    )


def _of_column(one: Understood, code: str, **values: Value) -> Finding:
    return Finding(
        code=code,
        severity=Severity.INFO,
        said=Message(f"intake-{code}", {"heading": Given(one.meaning.heading), **values}),
        places=(one.meaning.place,),
    )


def _depth_and_day(filled: Filled, today: date | None) -> Iterator[Finding]:
    depth = filled.values.get(DEPTH)
    everything = range(len(filled.table))
    if any(value is not None for value in filled.values.get(PH, ())):
        if depth is None or not any(depth):
            if not any(c.key.startswith("depth") for c in filled.columns):
                asked = message("intake-ask-depth")
                yield from _of_rows(filled, "no-depth", everything, question=asked, key=DEPTH_KEY)
        elif len({value for value in depth if value}) > 1:
            several = sorted({str(value) for value in depth if value})[:4]
            listed = Listed(tuple(Given(one) for one in several))
            yield from _of_rows(
                filled, "several-depths", [0], severity=Severity.INFO, depths=listed
            )
        if not any(filled.values.get(DAY, ())) and "date_sampled" not in filled.days:
            asked = message("intake-ask-day")
            yield from _of_rows(filled, "no-day", everything, question=asked, key=DAY_KEY)
    taken = filled.days.get("date_sampled")
    if taken is None:
        return
    for key in ("date_received", "date_reported"):
        later = filled.days.get(key)
        if later is not None:
            wrong = [
                n
                for n, (a, b) in enumerate(zip(taken, later, strict=True))
                if a is not None and b is not None and b < a
            ]
            for n in wrong:
                filled.take_out(DAY, n)
            yield from _of_rows(filled, "report-before-sample", wrong)
            if wrong:
                break
    if today is not None:
        future = [n for n, day in enumerate(taken) if day is not None and day > today]
        for n in future:
            filled.take_out(DAY, n)
        yield from _of_rows(filled, "sampled-later", future)


def _two_ph(filled: Filled, kept: bool) -> Iterator[Finding]:
    columns = [c for c in filled.columns if c.key == "ph" and c.meaning.sure]
    water = next((c for c in columns if c.meaning.method.startswith(("water", "paste"))), None)
    headed = next(
        (c for c in columns if c not in (water,) and c.meaning.method not in (*_SALT, "probe")),
        None,
    )
    water = water or headed
    for one in columns:
        if water is None or one is water or one.meaning.method not in _SALT:
            continue
        above = _both(one.scaled, water.scaled, lambda a, b: a > b + 0.05)
        if not kept:
            _take_out_ph(filled, above)
        yield from _of_rows(
            filled,
            "salt-above-water",
            above,
            question=None if kept else message("intake-ask-swapped"),
            key="" if kept else SWAPPED_KEY,
            choices=() if kept else (KEEP, LEAVE_OUT),
            salt=Given(one.meaning.heading),
            water=Given(water.meaning.heading),
        )
    buffer = next((c for c in map(filled.column, BUFFERS) if c is not None), None)
    if water is not None and buffer is not None:
        reading = water.scaled
        above = _both(reading, buffer.scaled, lambda a, b: (a >= b) & (a < 7.0))
        if not kept:
            _take_out_ph(filled, above)
        yield from _of_rows(
            filled,
            "ph-above-buffer",
            above,
            question=None if kept else message("intake-ask-swapped"),
            key="" if kept else SWAPPED_KEY,
            choices=() if kept else (KEEP, LEAVE_OUT),
        )
        limy = _both(reading, buffer.scaled, lambda a, b: (a > 7.0) & np.isfinite(b))
        yield from _of_rows(filled, "buffer-in-limy", limy, severity=Severity.INFO)


def _take_out_ph(filled: Filled, rows: Mask) -> None:
    """Hold every pH of these rows back: nobody knows which column is which."""
    for n in np.flatnonzero(rows).tolist():
        for path in list(filled.values):
            if path.endswith(("ph", "ph_method")):
                filled.take_out(path, n)


def _both(a: Values | None, b: Values | None, test: Callable[[Values, Values], Mask]) -> Mask:
    """Where a test of two columns holds; nowhere where one of them has no figure."""
    if a is None or b is None:
        return np.zeros(0, dtype=bool)
    given = np.isfinite(a) & np.isfinite(b)
    with np.errstate(invalid="ignore"):
        return np.asarray(given & test(a, b), dtype=np.bool_)


def _acid_and_lime(filled: Filled) -> Iterator[Finding]:
    reading = _soil_ph(filled)
    if reading is None:
        return
    acid = next((c.read.values for c in filled.columns if c.key == "exchangeable_acidity"), None)
    aluminium = filled.figures("exchangeable_al")
    for figures in (acid, aluminium):
        found = _both(reading, figures, lambda a, b: (a > 7.2) & (b > 0.0))
        yield from _of_rows(filled, "acidity-in-limy", found)
    lime = filled.figures("carbonate")
    found = _both(reading, lime, lambda a, b: (a < 6.5) & (b > 1.0))
    yield from _of_rows(filled, "lime-in-acid", found)


def _lime_against_ph(filled: Filled) -> Iterator[Finding]:
    """A laboratory that asks for lime where the soil is limy, or for none where it is very acid."""
    reading, lime = _soil_ph(filled), filled.figures("lime")
    needless = _both(reading, lime, lambda a, b: (a > _LIMY_PH) & (b > 0.0))
    yield from _of_rows(filled, "lime-needless", needless)
    missing = _both(reading, lime, lambda a, b: (a < _ACID_PH) & (b == 0.0))
    yield from _of_rows(filled, "lime-missing", missing, severity=Severity.INFO)


def _soil_ph(filled: Filled) -> Values | None:
    """The pH that is called the soil's, in water if there is one."""
    values = filled.values.get(PH)
    if values is None:
        return None
    figures = [np.nan if value is None else float(str(value)) for value in values]
    return np.array(figures, dtype=np.float64)


def _exchange(filled: Filled) -> Iterator[Finding]:
    cec = filled.figures("cec")
    total = cation_sum(filled.columns)
    over = _both(total, cec, lambda a, b: a > 1.15 * b)
    yield from _of_rows(filled, "cations-over-cec", over)
    saturation = filled.figures("base_saturation")
    if saturation is not None:
        with np.errstate(invalid="ignore"):
            yield from _of_rows(filled, "saturation-over-100", saturation > 100.5)


def _organic(filled: Filled) -> Iterator[Finding]:
    om, oc = filled.figures("om"), filled.figures("oc")
    with np.errstate(divide="ignore", invalid="ignore"):
        if om is not None and oc is not None:
            ratio = om / oc
            same = np.isfinite(ratio) & (np.abs(ratio - 1.0) < 0.02)
            for n in np.flatnonzero(same).tolist():
                filled.take_out(CARBON, n)
            yield from _of_rows(filled, "om-equals-oc", same)
            low, high = _OM_OVER_OC
            off = np.isfinite(ratio) & ~same & ((ratio < low) | (ratio > high))
            if off.any():
                first = float(ratio[np.flatnonzero(off)[0]])
                yield from _of_rows(filled, "om-against-oc", off, ratio=times(first))
    for one in filled.columns:
        if one.key == "om" and one.meaning.sure and len(one.read.figures):
            by_loss = {"loi", "ignition", "gluhverlust", "gloeiverlies", "glodforlust"}
            said = by_loss & set(plain_words(one.column.heading.text).split())
            yield _of_column(one, "om-ignition" if said else "om-method")


def _texture(filled: Filled) -> Iterator[Finding]:
    parts = [filled.figures(key) for key in ("sand", "silt", "clay")]
    if any(part is None for part in parts):
        return
    total = sum((part for part in parts if part is not None), np.zeros(len(filled.table)))
    off = np.isfinite(total) & (np.abs(total - 100.0) > _SUM_OFF)
    if off.any():
        first = float(total[np.flatnonzero(off)[0]])
        for n in np.flatnonzero(off).tolist():
            for key in ("sand", "silt", "clay"):
                filled.take_out(f"soil.{key}_pct", n)
        yield from _of_rows(filled, "texture-sum", off, total=number(round(first, 1)))


def _of_columns(filled: Filled) -> Iterator[Finding]:
    """What holds of a column whatever its figures: oxides, classes, bases, hidden targets."""
    depth_cm = _only_depth(filled)
    oxides = [c for c in filled.columns if c.key in _OXIDES]
    if oxides:
        named = Listed(tuple(Given(c.meaning.heading) for c in oxides[:4]))
        yield _of_column(oxides[0], "oxides", named=named)
    for one in filled.columns:
        unit = one.column.heading.unit
        if one.key in ALWAYS_TOLD:
            yield _of_column(one, ALWAYS_TOLD[one.key])
        if one.key == "lime" and len(one.read.figures):
            yield _of_column(one, "lime-hidden")
            if unit.find("CaO") >= 0:
                yield _of_column(one, "lime-as-cao")
        if one.meaning.path == FIZZ and one.meaning.sure:
            yield _of_column(one, "fizz-acid")
    yield from _nutrients(filled, depth_cm)


def _nutrients(filled: Filled, depth_cm: float | None) -> Iterator[Finding]:
    nutrients = [c for c in filled.columns if c.key in ("p", "k", "mg", "ca", "na", *_OXIDES)]
    by_area = [c for c in nutrients if c.column.heading.unit in _AREA]
    if by_area:
        fits = depth_cm is not None and _FURROW_CM[0] <= depth_cm <= _FURROW_CM[1]
        yield _of_column(
            by_area[0],
            "per-area",
            unit=Given(by_area[0].column.heading.unit),
            fits="yes" if fits else "no" if depth_cm is not None else "unknown",
        )
    by_volume = [c for c in filled.columns if c.column.heading.unit in _VOLUME]
    by_volume = [c for c in by_volume if c.key not in IN_WATER]
    if by_volume:
        unit = Given(by_volume[0].column.heading.unit)
        yield _of_column(by_volume[0], "per-volume", unit=unit)
    for one in nutrients:
        if "index" in one.column.heading.left or _is_class(one):
            yield _of_column(one, "index-class")
            break


def _is_class(one: Understood) -> bool:
    """Whether figures are classes such as ``2`` and ``2-``."""
    cells = [cell for cell in one.column.cells[:50] if cell]
    signs = [cell for cell in cells if len(cell) <= 2 and cell[-1:] in "+-" and cell[:1].isdigit()]
    return bool(signs)


def _only_depth(filled: Filled) -> float | None:
    if filled.depths is None:
        return None
    depths = {float(one) for one in filled.depths.lower_cm if np.isfinite(one)}
    return depths.pop() if len(depths) == 1 else None


def _rows_skipped(filled: Filled) -> Iterator[Finding]:
    by_reason: dict[str, list[int]] = {}
    for row, why in filled.table.skipped:
        by_reason.setdefault(why.value, []).append(row)
    for reason, rows in by_reason.items():
        listed = Listed(tuple(Given(str(row)) for row in rows[:6]))
        yield Finding(
            code=f"skipped-{reason}",
            severity=Severity.CAUTION if reason == "repeated" else Severity.INFO,
            said=message(
                "intake-rows-skipped",
                why=reason,
                sheet=Given(filled.table.sheet),
                rows=listed,
                more=max(len(rows) - 6, 0),
            ),
            count=len(rows),
        )
    empty = [
        n
        for n in range(len(filled.table))
        if all(column[n] is None for column in filled.values.values())
    ]
    yield from _of_rows(filled, "nothing-for-case", empty, severity=Severity.INFO)


def _limits(filled: Filled) -> Iterator[Finding]:
    if not filled.limits:
        return
    first = min(filled.limits)
    path, text = next(iter(filled.limits[first].items()))
    yield from _of_rows(
        filled,
        "limits",
        sorted(filled.limits),
        severity=Severity.INFO,
        given=Given(text),
        path=field_in_text(path),
    )
