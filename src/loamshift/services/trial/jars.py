"""A titration in jars: doses that span the question, and what the readings make of the soil."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from loamshift.domain.answer import Band
from loamshift.domain.bed_context import BedContext
from loamshift.domain.case import Case, TitrationPoint
from loamshift.domain.message import message
from loamshift.domain.trial_jars import Jar, JarPlan, JarResult
from loamshift.domain.worded_error import WordedError
from loamshift.services.context.build_context import build_context, require_soil
from loamshift.services.context.need import acid_to
from loamshift.units import CACO3_G_PER_MMOLC

PAST: Final = 1.5
"""The last jar gets so many times the best estimate of the need, so that the curve is crossed."""
_Z90: Final = 1.645
FEWEST_JARS: Final = 3


def plan_jars(case: Case, *, ph_to: float, count: int, soil_g: float, acid_mol_l: float) -> JarPlan:
    """What goes into each jar, from nothing to past the need.

    Parameters
    ----------
    ph_to
        pH that the series should pass [pH in water].
    count
        How many jars, that with nothing among them, 3 or more [count].
    soil_g
        Dry soil in each [g].
    acid_mol_l
        Strength of the acid, of one charge for each molecule such as hydrochloric [mol/L].
    """
    context = _context(case)
    need = acid_to(context, ph_to, acidify=_acidify(context, ph_to))
    sign = 1.0 if _acidify(context, ph_to) else -1.0
    jars = []
    for number in range(count):
        acid = sign * float(f"{PAST * need.mid * number / (count - 1):.3g}")
        per_jar = abs(acid) * soil_g / 1000.0
        jars.append(
            Jar(
                number=number + 1,
                acid_mmolc_kg=acid,
                acid_ml=per_jar / acid_mol_l if acid > 0.0 else 0.0,
                lime_g=per_jar * CACO3_G_PER_MMOLC if acid < 0.0 else 0.0,
            )
        )
    return JarPlan(
        jars=tuple(jars),
        soil_g=soil_g,
        water_ml=soil_g,
        acid_mol_l=acid_mol_l,
        ph_to=ph_to,
    )


def read_jars(case: Case, points: Sequence[tuple[float, float]], *, ph_to: float) -> JarResult:
    """The buffer scale and the need before and after a series of jars.

    Parameters
    ----------
    points
        Acid added, base negative, and the pH read [mmolc/kg, pH in water].
    ph_to
        pH that is aimed at [pH in water].
    """
    if len(points) < FEWEST_JARS:
        raise WordedError(message("jars-too-few", count=len(points), fewest=FEWEST_JARS))
    titration = tuple(TitrationPoint(acid_mmolc_kg=acid, ph=ph) for acid, ph in points)
    before = _context(replace(case, titration=()))
    after = _context(replace(case, titration=titration))
    acidify = _acidify(before, ph_to)
    old, new = (acid_to(one, ph_to, acidify=acidify) for one in (before, after))
    need_before = Band(lo90=old.lo90, mid=old.mid, hi90=old.hi90)
    need_after = Band(lo90=new.lo90, mid=new.mid, hi90=new.hi90)
    return JarResult(
        points=tuple(points),
        ph_to=ph_to,
        acidify=acidify,
        scale_before=_scale(before),
        scale_after=_scale(after),
        need_before=need_before,
        need_after=need_after,
        narrower=_width(need_before) / max(_width(need_after), 1e-9),
    )


def _context(case: Case) -> BedContext:
    context = build_context(case)
    if context.soil is None:
        raise WordedError(message("trial-soil-ph"))
    return context


def _acidify(context: BedContext, ph_to: float) -> bool:
    return ph_to < require_soil(context).ph.ph_water


def _scale(context: BedContext) -> Band:
    k = require_soil(context).k
    half = _Z90 * k.log10_k_sd
    low, mid, high = (10.0 ** (k.log10_k_mean + step) for step in (-half, 0.0, half))
    return Band(lo90=low, mid=mid, hi90=high)


def _width(band: Band) -> float:
    """Width of a band of amounts, on a ratio scale where it can be."""
    if band.lo90 > 0.0:
        return math.log(band.hi90 / band.lo90)
    return band.hi90 - band.lo90
