"""The laboratory's own lime figure beside ours, where the two are far apart."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Final

from loamshift.case.intake.entered import case_tree
from loamshift.case.intake.keys import LIME, ORGANIC, PH, TEXTURES
from loamshift.case.intake.proposal import Finding, SampleRow
from loamshift.case.read import case_from_tree
from loamshift.case.schema import CASE_VERSION
from loamshift.domain.decision import Severity
from loamshift.domain.message import Given, message, rate
from loamshift.errors import LoamshiftError
from loamshift.services.context.build_context import build_context
from loamshift.services.context.need import need_mmolc_kg
from loamshift.tables.soils import soil_values
from loamshift.units import CACO3_G_PER_MMOLC

FAR_APART: Final = 2.0
"""Times that the laboratory's figure may be above or below ours without being asked about."""
MOST_ROWS: Final = 2000
"""So many samples are compared, each in a thousandth of a second [count]."""
SINGLY: Final = 20
"""So many are named each by itself; those after them are counted [count]."""


def lime_beside_ours(rows: Sequence[SampleRow], *, today: date) -> Iterator[Finding]:
    """Lime figures more than twice or less than half of ours, and how many were compared.

    Ours is put as a laboratory would print it: to the usual target, for the usual depth and quality
    of lime, with the usual allowance (parameters ``lab_lime_…``). It needs pH, texture and organic
    matter.

    Parameters
    ----------
    today
        The day that the cases are for.
    """
    able = [row for row in rows if _can_be_judged(row)]
    apart = []
    for row in able[:MOST_ROWS]:
        lab_g_m2 = float(str(row.values[LIME]).split()[0])
        ours_g_m2 = _ours_g_m2(row, today)
        if ours_g_m2 is None or min(lab_g_m2, ours_g_m2) <= 0.0:
            continue
        if max(lab_g_m2 / ours_g_m2, ours_g_m2 / lab_g_m2) > FAR_APART:
            apart.append((row, lab_g_m2, ours_g_m2))
    for row, lab_g_m2, ours_g_m2 in apart[:SINGLY]:
        yield Finding(
            code="lime-far-apart",
            severity=Severity.CAUTION,
            said=message(
                "intake-lime-far-apart",
                sample=Given(row.sample),
                theirs=rate(lab_g_m2),
                ours=rate(ours_g_m2),
            ),
            places=(row.place,),
        )
    if len(apart) > SINGLY:
        more = [row for row, _, _ in apart[SINGLY:]]
        yield Finding(
            code="lime-far-apart-more",
            severity=Severity.CAUTION,
            said=message(
                "intake-lime-far-apart-more", count=len(more), sample=Given(more[0].sample)
            ),
            places=tuple(row.place for row in more[:SINGLY]),
            count=len(more),
        )
    if len(able) > MOST_ROWS:
        yield Finding(
            code="lime-not-compared",
            severity=Severity.INFO,
            said=message("intake-lime-not-compared", most=MOST_ROWS, count=len(able) - MOST_ROWS),
            count=len(able) - MOST_ROWS,
        )


def _can_be_judged(row: SampleRow) -> bool:
    given = row.values.keys()
    return (
        {LIME, PH} <= given
        and any(key in given for key in TEXTURES)
        and any(key in given for key in ORGANIC)
    )


def _ours_g_m2(row: SampleRow, today: date) -> float | None:
    """What a laboratory would print for this soil by our curve [g/m2]; None where nothing can."""
    values = soil_values()
    told = {key: value for key, value in row.values.items() if key != LIME}
    tree = {"case": CASE_VERSION, **case_tree(told)}
    tree.pop("aim", None)
    try:
        context = build_context(case_from_tree(tree, source=row.sample, today=today))
        if context.soil is None:
            return None
        need = need_mmolc_kg(context, values["lab_lime_target_ph"]).quantile(0.5)
    except LoamshiftError:
        return None
    slice_g_m2 = need * CACO3_G_PER_MMOLC * values["lab_lime_slice_kg_m2"]
    return slice_g_m2 * values["lab_lime_allowance"] / values["lab_lime_caco3_frac"]
