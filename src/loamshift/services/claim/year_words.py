"""What a year in the column does with a claim, said with its reasons."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from loamshift.domain.bed_context import BedContext
from loamshift.domain.material import Material, MaterialGroup
from loamshift.domain.message import (
    Measure,
    Message,
    Prose,
    Quantity,
    message,
    ph,
    prose,
    temperature,
)
from loamshift.services.claim.put_on import own_ph, worked_in_cm
from loamshift.services.context.build_context import require_soil
from loamshift.tables.model import sulfur_parameters

if TYPE_CHECKING:
    from loamshift.services.claim.course import Course

_STILL_PH: Final = 0.05
"""A smaller change is called none [pH]."""
_SHOWN_PH: Final = 0.1
_TWO_WEEKS: Final = 14
_MUCH: Final = 0.3
"""Share of an amount that is worth a sentence [1]."""
_MOST: Final = 0.5
_MAYBE: Final = (0.05, 0.95)
"""Chance of a soil without lime between which a fizz test is worth naming [1]."""
_NEAR_LIME_PH: Final = 7.0
"""From here on ground lime hardly dissolves within a year [pH in water]."""
_COLD_C: Final = 8.0
_DRIFT_PH: Final = 0.15
_ALL: Final = 0.95
"""A larger share of an amount is called nearly all, or all [1]."""
_SHARE_STEP: Final = 0.05
"""Shares of what reacts are told in such steps [1]."""
_SHARP_PH: Final = 1.0
"""So much lower at the surface is told to those with roots there [pH]."""
_WEEKS_TOLD: Final = 12
_DAYS_IN_MONTH: Final = 30.4
_WAITS: Final = {
    MaterialGroup.SULFUR: "sulfur",
    MaterialGroup.LIME: "grains",
    MaterialGroup.ASH: "grains",
    MaterialGroup.NITROGEN: "nitrogen",
    MaterialGroup.ORGANIC: "rot",
}
"""What has to happen first, by the kind of material."""


def year_words(
    context: BedContext,
    material: Material,
    course: Course,
    *,
    place: str,
    acidifies: bool,
    against_the_aim: bool,
) -> Prose:
    """What the pH does now and in a year, and why.

    Parameters
    ----------
    acidifies
        True where it ends as acid.
    against_the_aim
        True where it works against what this ground needs.
    """
    if material.group in (MaterialGroup.NEUTRAL_SALT, MaterialGroup.IRON):
        return Prose()
    sours = acidifies or material.organic_acid_molc_kg > 0.0
    return prose(
        _movement(course),
        _range(course, place),
        _when(context, material, course),
        _unreacted(context, material, course),
        _taken_back(context, material, course) if sours else None,
        None if against_the_aim else _by_itself(context, course, place),
        _at_the_surface(context, material, course),
    )


def _movement(course: Course) -> Message:
    now, year = course.now, course.year
    if _still(now) and _still(year):
        if abs(course.most) < _SHOWN_PH:
            return message("claim-year-still")
        return message("claim-year-in-between", turn=_turn(course.most), most=_by(course.most))
    if _still(now):
        return message("claim-year-later", side=_side(year), year=_by(year))
    if _still(year):
        return message("claim-year-back", turn=_turn(now), now=_by(now))
    if _tenths(now) == _tenths(year) and now * year > 0.0:
        return message("claim-year-same", turn=_turn(now), now=_by(now))
    return message(
        "claim-year-first-and-later",
        turn=_turn(now),
        now=_by(now),
        side=_side(year),
        year=_by(year),
    )


def _range(course: Course, place: str) -> Message | None:
    """Where nine beds in ten would be, unless it is the middle again."""
    low, high = sorted((course.year_low, course.year_high), key=abs)
    if _still(high) or _tenths(low) == _tenths(high) == _tenths(course.year):
        return None
    if _still(low):
        return message("claim-year-range-from-none", side=_side(high), high=_by(high), place=place)
    if low * high < 0.0:
        return message(
            "claim-year-range-both",
            lower=_by(min(low, high)),
            higher=_by(max(low, high)),
            place=place,
        )
    return message("claim-year-range", side=_side(high), low=_by(low), high=_by(high), place=place)


def _when(context: BedContext, material: Material, course: Course) -> Prose | None:
    """When a test could first tell, where that is not at once."""
    day = course.first_shows_day
    if day is None or day <= _TWO_WEEKS or not _still(course.now) or _still(course.year):
        return None
    if own_ph(material) is not None:
        return prose(message("claim-when", wait="own-ph", span=_span(day)))
    wait = _WAITS.get(material.group, "none")
    cold = _cold(context) if material.group is MaterialGroup.SULFUR else None
    return prose(message("claim-when", wait=wait, span=_span(day)), cold)


def _cold(context: BedContext) -> Message | None:
    if not context.soil_temp_c:
        return None
    day = min(context.case.today.timetuple().tm_yday, len(context.soil_temp_c))
    temp = context.soil_temp_c[day - 1]
    if temp >= _COLD_C:
        return None
    if temp < sulfur_parameters().ramp_from_c:
        return message("claim-too-cold")
    return message("claim-cold", temp=temperature(temp))


def _unreacted(context: BedContext, material: Material, course: Course) -> Prose | None:
    groups = (MaterialGroup.SULFUR, MaterialGroup.LIME, MaterialGroup.ASH)
    if material.group not in groups or course.left_frac < _MUCH:
        return None
    size = "nearly-all" if course.left_frac > _ALL else "some"
    left = _about(course.left_frac)
    lies = (
        message("claim-carbonate", size=size, left=left)
        if "caustic-lime" in material.cautions
        else message("claim-unreacted", size=size, left=left)
    )
    return prose(lies, _why_unreacted(context, material, course))


def _why_unreacted(context: BedContext, material: Material, course: Course) -> Message | None:
    on_top = worked_in_cm(context, material) == 0.0
    if material.group is MaterialGroup.SULFUR:
        if material.intact_diameter_um:
            return message("claim-slow-grain")
        return message("claim-slow-dry") if on_top else None
    start = require_soil(context).ph.ph_water
    if start >= _NEAR_LIME_PH:
        return message("claim-slow-near-lime")
    if on_top:
        return message("claim-slow-on-top")
    if start + course.alone + course.year >= _NEAR_LIME_PH:
        return message("claim-slow-near-lime")
    return message("claim-slow-coarse")


def _taken_back(context: BedContext, material: Material, course: Course) -> Message | None:
    """What takes the acid up again, where most of it is taken."""
    no_lime = require_soil(context).carbonate.zero_weight
    sure = "yes" if no_lime <= _MAYBE[0] else "no"
    if _MOST <= course.lime_frac <= 1.1 and material.group is not MaterialGroup.ORGANIC:
        size = "all" if course.lime_frac > _ALL else "some"
        return message("claim-lime-takes", sure=sure, size=size, taken=_about(course.lime_frac))
    if course.lime_frac >= _MOST and material.fast_acid_molc_kg > 0.0:
        return message("claim-lime-takes-peat", sure=sure)
    if not _still(course.year) and _still(course.year_high) and _MAYBE[0] < no_lime < _MAYBE[1]:
        return message("claim-lime-maybe")
    gone = abs(course.now) >= _SHOWN_PH and abs(course.year) <= _MOST * abs(course.now)
    if gone and course.given_back_frac >= _MUCH:
        return message("claim-comes-back")
    if gone and material.organic_acid_molc_kg > 0.0:
        return message("claim-microbes")
    return None


def _by_itself(context: BedContext, course: Course, place: str) -> Prose | None:
    """What the bed does meanwhile, where that works against the claim."""
    drift, year = course.alone, course.year
    if abs(drift) < _DRIFT_PH or _still(year) or drift * year > 0.0:
        return None
    net = drift + year
    return prose(
        message(
            "claim-alone",
            turn=_turn(drift),
            drift=_by(drift),
            cause="water" if context.water_base_mmolc_m2_year > 0.0 else "none",
            place=place,
        ),
        message("claim-alone-same")
        if _still(net)
        else message("claim-alone-net", side=_side(net), net=_by(net)),
    )


def _at_the_surface(context: BedContext, material: Material, course: Course) -> Message | None:
    sharp = course.lowest_alone_ph - course.lowest_ph >= _SHARP_PH
    if not sharp or worked_in_cm(context, material) > 0.0:
        return None
    return message("claim-at-the-surface", lowest=ph(course.lowest_ph))


def _still(change: float) -> bool:
    return abs(change) < _STILL_PH


def _turn(change: float) -> str:
    return "rise" if change > 0.0 else "fall"


def _side(change: float) -> str:
    return "higher" if change > 0.0 else "lower"


def _by(change: float) -> Measure:
    return ph(abs(change))


def _tenths(change: float) -> str:
    """A change as it will be told; only to see whether two would be told alike."""
    return f"{abs(change):.1f}"


def _about(share: float) -> Measure:
    """A share in steps that do not pretend."""
    return Measure(Quantity.SHARE, _SHARE_STEP * round(share / _SHARE_STEP))


def _span(days: int) -> Measure | Message:
    weeks = round(days / 7.0)
    if weeks <= _WEEKS_TOLD:
        return Measure(Quantity.WEEKS, float(weeks))
    return message("claim-months", n=round(days / _DAYS_IN_MONTH))
