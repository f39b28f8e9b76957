"""A pH by one method as it would read by another, by every conversion in the table."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace

from loamshift.domain.evidence import Evidence
from loamshift.domain.message import Given, Message, Worded, message
from loamshift.domain.ph import PhConversion, PhMethod
from loamshift.domain.ph_views import PhConversionView, PhView
from loamshift.domain.worded_error import WordedError
from loamshift.errors import OutOfRangeError

_WATER = tuple(method for method in PhMethod if method.is_water)
_LEAST_SURE = (Evidence.COMMON_PRACTICE, Evidence.JUDGEMENT, Evidence.MEMORY)


class ImpossiblePhError(WordedError, OutOfRangeError):
    """A reading that is no soil pH."""


def convert_ph(
    ph: float,
    *,
    from_method: PhMethod,
    to_method: PhMethod,
    conversions: Sequence[PhConversion],
) -> PhConversionView:
    """A reading by one method as every published conversion has it in another.

    Conversions printed the other way are turned round; where no default leads straight from
    one method to the other, the two that lead over the table's basis are joined. Conversions
    for another ratio of soil to water than the one asked for stand beside, marked.

    Parameters
    ----------
    ph
        The reading, 2 to 11 [pH].

    Raises
    ------
    ImpossiblePhError
        Where the reading is no soil pH.
    WordedError
        Where both methods are the same, or no conversion leads there.

    Notes
    -----
    Turned round: (pH - intercept)/slope with sd/slope. That is not the regression of the
    other way round, and pulls less towards the mean; inside the scatter of these data the
    difference is small.

    References
    ----------
    kabala-2016, takamoto-2023, conyers-davey-1988
    """
    if not 2.0 <= ph <= 11.0:
        raise ImpossiblePhError(message("convert-no-soil-ph", ph=Given(f"{ph:g}")))
    if from_method is to_method:
        raise WordedError(message("convert-same-method", method=Given(from_method.value)))
    table = [row for row in conversions if row.method is not row.to_method]
    views = _straight(ph, (from_method,), (to_method,), table)
    if not any(view.default for view in views):
        views += _joined(ph, from_method, to_method, table)
    if from_method.is_water is not to_method.is_water:
        views += _other_ratios(ph, from_method, to_method, table)
    if not views:
        methods = {"from": Given(from_method.value), "to": Given(to_method.value)}
        raise WordedError(message("convert-no-conversion", **methods))
    ordered = sorted(
        views, key=lambda v: (not v.default, not v.in_range, v.turned_round, v.source_keys, v.ph)
    )
    return PhConversionView(
        ph=ph, from_method=from_method, to_method=to_method, views=tuple(ordered)
    )


def _given(worded: Worded) -> Given | Message:
    """What a table says, or a message, as the value of another message."""
    return worded if isinstance(worded, Message) else Given(str(worded))


def _other_ratios(
    ph: float, from_method: PhMethod, to_method: PhMethod, table: Sequence[PhConversion]
) -> list[PhView]:
    """The same pair of methods at another ratio of soil to water than the one asked for."""
    asked = to_method if to_method.is_water else from_method
    others = tuple(method for method in _WATER if method is not asked)
    starts = (from_method,) if to_method.is_water else others
    goals = others if to_method.is_water else (to_method,)
    return [
        replace(
            view,
            default=False,
            note=message(
                "catalogue-ph-other-ratio", method=Given(asked.value), note=_given(view.note)
            ),
        )
        for view in _straight(ph, starts, goals, table)
    ]


def _straight(
    ph: float,
    starts: Iterable[PhMethod],
    ends: Iterable[PhMethod],
    conversions: Sequence[PhConversion],
) -> list[PhView]:
    starts, ends = tuple(starts), tuple(ends)
    views = []
    for row in conversions:
        if row.method in starts and row.to_method in ends:
            views.append(_view(ph, row, turned=False))
        elif row.method in ends and row.to_method in starts:
            views.append(_view(ph, row, turned=True))
    return views


def _view(ph: float, row: PhConversion, *, turned: bool) -> PhView:
    if turned:
        value, sd = (ph - row.intercept) / row.slope, row.sd / abs(row.slope)
        inside = row.ph_low <= value <= row.ph_high
    else:
        value, sd = row.intercept + row.slope * ph, row.sd
        inside = row.ph_low <= ph <= row.ph_high
    slope = "" if row.slope == 1.0 else f"{row.slope:g} × "
    sign = "+" if row.intercept > 0.0 else "−"
    shift = "" if row.intercept == 0.0 else f" {sign} {abs(row.intercept):g}"
    route = f"{row.to_method.value} = {slope}{row.method.value}{shift}"
    return PhView(
        ph=value,
        ph_sd=sd,
        default=row.default,
        in_range=inside,
        turned_round=turned,
        route=route,
        source_keys=(row.source_key,),
        evidence=row.evidence,
        note=row.note,
    )


def _joined(
    ph: float, from_method: PhMethod, to_method: PhMethod, table: Sequence[PhConversion]
) -> list[PhView]:
    """The two default conversions joined through the basis of the table."""
    defaults = [row for row in table if row.default]
    first = _straight(ph, (from_method,), _WATER, defaults)
    if not first:
        return []
    one = first[0]
    basis = next(row.to_method for row in defaults if row.method is from_method)
    second = _straight(one.ph, (basis,), (to_method,), defaults)
    if not second:
        return []
    two = second[0]
    slope = _straight(one.ph + 1.0, (basis,), (to_method,), defaults)[0].ph - two.ph
    weakest = next(
        (mark for mark in _LEAST_SURE if mark in (one.evidence, two.evidence)), two.evidence
    )
    return [
        PhView(
            ph=two.ph,
            ph_sd=math.hypot(slope * one.ph_sd, two.ph_sd),
            default=True,
            in_range=one.in_range and two.in_range,
            turned_round=two.turned_round,
            route=f"{one.route}; {two.route}",
            source_keys=tuple(dict.fromkeys((*one.source_keys, *two.source_keys))),
            evidence=weakest,
            note=message("catalogue-ph-joined-note"),
        )
    ]
