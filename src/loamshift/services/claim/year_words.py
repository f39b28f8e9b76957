"""What a year in the column does with a claim, said with its reasons."""

from __future__ import annotations

from typing import TYPE_CHECKING, Final

from loamshift.domain.bed_context import BedContext
from loamshift.domain.material import Material, MaterialGroup
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
_SHARP_PH: Final = 1.0
"""So much lower at the surface is told to those with roots there [pH]."""
_WEEKS_TOLD: Final = 12
_DAYS_IN_MONTH: Final = 30.4


def year_words(
    context: BedContext,
    material: Material,
    course: Course,
    *,
    noun: str,
    acidifies: bool,
    against_the_aim: bool,
) -> tuple[str, ...]:
    """What the pH does now and in a year, and why.

    Parameters
    ----------
    context
        The bed as understood [object].
    material
        What is claimed [object].
    course
        What the column made of it [object].
    noun
        What this ground is called: bed, pot, lawn or field [text].
    acidifies
        True where it ends as acid [truth].
    against_the_aim
        True where it works against what this ground needs [truth].

    Returns
    -------
    tuple of str
        Sentences; none where nothing in it acts [text].
    """
    if material.group in (MaterialGroup.NEUTRAL_SALT, MaterialGroup.IRON):
        return ()
    sours = acidifies or material.organic_acid_molc_kg > 0.0
    told = (
        _movement(course, noun),
        _when(context, material, course),
        _unreacted(context, material, course),
        _taken_back(context, material, course) if sours else "",
        "" if against_the_aim else _by_itself(context, course, noun),
        _at_the_surface(context, material, course),
    )
    return tuple(text for text in told if text)


def _movement(course: Course, noun: str) -> str:
    now, year = course.now, course.year
    if _still(now) and _still(year):
        if abs(course.most) < _SHOWN_PH:
            text = "The pH would not move to speak of, now or in a year"
        else:
            text = (
                "The pH would not move to speak of in two weeks or in a year; in between it would "
                f"{_verb(course.most)} by about {_tenths(course.most)} and come back"
            )
        return f"{text}{_range(course, noun)}."
    first = (
        "The pH would not move to speak of in the first two weeks"
        if _still(now)
        else f"The pH would {_verb(now)} by about {_tenths(now)} in the first two weeks"
    )
    if _still(year):
        return f"{first} and be back where it was after a year{_range(course, noun)}."
    if _tenths(now) == _tenths(year) and now * year > 0.0:
        return f"{first} and be much the same after a year{_range(course, noun)}."
    return f"{first}; after a year it would be about {_side(year)}{_range(course, noun)}."


def _range(course: Course, noun: str) -> str:
    """Where nine beds in ten would be, unless it is the middle again."""
    low, high = sorted((course.year_low, course.year_high), key=abs)
    if _still(high) or _tenths(low) == _tenths(high) == _tenths(course.year):
        return ""
    if _still(low):
        ends = f"between nothing and {_side(high)}"
    elif low * high < 0.0:
        ends = f"anything from {_side(low)} to {_side(high)}"
    else:
        ends = f"{_tenths(low)} to {_side(high)}"
    return f" (nine such {noun}s in ten: {ends})"


def _when(context: BedContext, material: Material, course: Course) -> str:
    """When a test could first tell, where that is not at once."""
    day = course.first_shows_day
    if day is None or day <= _TWO_WEEKS or not _still(course.now) or _still(course.year):
        return ""
    if own_ph(material) is not None:
        return (
            f"A test could first tell after about {_span(day)}, for it works only above its own pH."
        )
    reason = {
        MaterialGroup.SULFUR: "soil life has to turn it to acid first",
        MaterialGroup.LIME: "its grains dissolve slowly",
        MaterialGroup.ASH: "its grains dissolve slowly",
        MaterialGroup.NITROGEN: "its nitrogen has to nitrify first",
        MaterialGroup.ORGANIC: "it has to rot first",
    }.get(material.group)
    because = f", for {reason}" if reason else ""
    if material.group is MaterialGroup.SULFUR:
        because += _cold(context)
    return f"A test could first tell after about {_span(day)}{because}."


def _cold(context: BedContext) -> str:
    if not context.soil_temp_c:
        return ""
    day = min(context.case.today.timetuple().tm_yday, len(context.soil_temp_c))
    temp = context.soil_temp_c[day - 1]
    if temp >= _COLD_C:
        return ""
    if temp < sulfur_parameters().lowest_temp_c:
        return ", and the soil is too cold for that now"
    return f", and at {temp:.0f} °C, as now, that goes slowly"


def _unreacted(context: BedContext, material: Material, course: Course) -> str:
    groups = (MaterialGroup.SULFUR, MaterialGroup.LIME, MaterialGroup.ASH)
    if material.group not in groups or course.left_frac < _MUCH:
        return ""
    share = "Nearly all" if course.left_frac > 0.95 else f"About {_percent(course.left_frac)}"
    turned = "turned to carbonate" if "caustic-lime" in material.cautions else "unreacted"
    text = f"{share} of it would still lie there {turned}"
    on_top = worked_in_cm(context, material) == 0.0
    if material.group is MaterialGroup.SULFUR:
        if material.intact_diameter_um:
            return f"{text}: only the outside of each grain reacts."
        return f"{text}: on the surface it dries out." if on_top else f"{text}."
    start = require_soil(context).ph.ph_water
    near = f"{text}: so near the pH of lime itself, lime hardly dissolves."
    if start >= _NEAR_LIME_PH:
        return near
    if on_top:
        return f"{text}: on the surface it limes the top few centimetres and works down slowly."
    if start + course.alone + course.year >= _NEAR_LIME_PH:
        return near
    return f"{text}: its coarse grains last for years."


def _taken_back(context: BedContext, material: Material, course: Course) -> str:
    """What takes the acid up again, where most of it is taken."""
    no_lime = require_soil(context).carbonate.zero_weight
    sure = no_lime <= _MAYBE[0]
    lime = "Free lime in the soil" if sure else "Free lime, which this soil is likely to hold,"
    test = "" if sure else "; a fizz test would settle it"
    if _MOST <= course.lime_frac <= 1.1 and material.group is not MaterialGroup.ORGANIC:
        share = "all" if course.lime_frac > 0.95 else f"about {_percent(course.lime_frac)}"
        return f"{lime} takes up {share} of its acid{test}."
    if course.lime_frac >= _MOST and material.fast_acid_molc_kg > 0.0:
        return f"{lime} takes its acid up{test}."
    if not _still(course.year) and _still(course.year_high) and _MAYBE[0] < no_lime < _MAYBE[1]:
        return (
            "If this soil holds free lime, that takes up part or all of it: a fizz test would tell."
        )
    gone = abs(course.now) >= _SHOWN_PH and abs(course.year) <= _MOST * abs(course.now)
    if gone and course.given_back_frac >= _MUCH:
        return "Roots and drainage take less base from a more acid soil, so most of it comes back."
    if gone and material.organic_acid_molc_kg > 0.0:
        return "Soil life burns its acid off as it rots."
    return ""


def _by_itself(context: BedContext, course: Course, noun: str) -> str:
    """What the bed does meanwhile, where that works against the claim."""
    drift, year = course.alone, course.year
    if abs(drift) < _DRIFT_PH or _still(year) or drift * year > 0.0:
        return ""
    water = ", from the lime in its water" if context.water_base_mmolc_m2_year > 0.0 else ""
    why = water if drift > 0.0 else ", as rain and roots take base away"
    net = drift + year
    end = (
        "so a test would read about what it reads today"
        if _still(net)
        else f"so in all a test would read about {_side(net)} than today"
    )
    return f"By itself this {noun} would {_verb(drift)} by about {abs(drift):.1f}{why}, {end}."


def _at_the_surface(context: BedContext, material: Material, course: Course) -> str:
    sharp = course.lowest_alone_ph - course.lowest_ph >= _SHARP_PH
    if not sharp or worked_in_cm(context, material) > 0.0:
        return ""
    return f"The top few centimetres, where it lies, would fall to about pH {course.lowest_ph:.1f}."


def _still(change: float) -> bool:
    return abs(change) < _STILL_PH


def _verb(change: float) -> str:
    return "rise" if change > 0.0 else "fall"


def _side(change: float) -> str:
    return f"{_tenths(change)} {'higher' if change > 0.0 else 'lower'}"


def _tenths(change: float) -> str:
    return f"{abs(change):.1f}"


def _percent(share: float) -> str:
    return f"{5 * round(20.0 * share)} %"


def _span(days: int) -> str:
    weeks = round(days / 7.0)
    if weeks <= _WEEKS_TOLD:
        return f"{weeks} weeks"
    return f"{round(days / _DAYS_IN_MONTH)} months"
