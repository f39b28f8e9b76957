"""The sentence or two an adviser says about a claim."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from loamshift.domain.bed_context import BedContext
from loamshift.domain.material import Material, MaterialGroup
from loamshift.domain.material_comment import material_comment
from loamshift.domain.message import (
    Measure,
    Message,
    Prose,
    Quantity,
    message,
    ph,
    prose,
    rate,
    times,
)
from loamshift.services.claim.year_words import year_words
from loamshift.services.context.sodium import is_sodic
from loamshift.services.materials.caps import is_overdose, limit_passed, product_cap

if TYPE_CHECKING:
    from loamshift.domain.message import Value
    from loamshift.services.claim.course import Course

_NOTHING_MMOLC_M2: Final = 1.0
"""Less than a sixtieth of a gram of sulfur [mmolc/m2]."""
_SMALL: Final = 0.1
"""Share of the need below which a material is no help [1]."""
_TINY: Final = 0.01
"""A smaller share is told as less than one per cent [1]."""
_FITS: Final = (0.8, 1.25)
_FAR: Final = 10.0
_TOLD_PH: Final = 0.05
_SLOW: Final = 0.3
"""Share unreacted after a year from which the whole is called its end [1]."""
_GYPSUM: Final = "gypsum"
_TRAINED: Final = "acid-handling"
"""The caution of acids that only trained people handle."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """The figures of a claim that its comment draws on; acid [mmolc/m2], change [pH].

    ``course`` is the year in the column, None where only the curve was asked.
    """

    material: Material
    rate_g_m2: float
    brought_mmolc_m2: float
    needed_mmolc_m2: float
    aim_given: bool
    year_mmolc_m2: float
    change_now: float | None
    change_year: float | None
    place: str = "bed"
    """What this ground is called: bed, pot, lawn or field."""
    course: Course | None = None

    @property
    def moves(self) -> bool:
        """True where a change is worth telling, now or after a year."""
        changes = (self.change_now, self.change_year)
        return any(change is None or abs(change) >= _TOLD_PH for change in changes)


def comment(context: BedContext, told: Told) -> Prose:
    """What an adviser says: what it does, and what stands against it.

    Returns
    -------
    Prose
        One to four sentences, and those of the year where the column was run.
    """
    burnt = _burnt_off(told)
    off_the_curve = told.change_now is None or told.change_year is None
    year = None
    if told.course is not None and not off_the_curve and not burnt:
        year = year_words(
            context,
            told.material,
            told.course,
            place=told.place,
            acidifies=told.brought_mmolc_m2 > 0.0,
            against_the_aim=told.brought_mmolc_m2 * told.needed_mmolc_m2 < 0.0,
        )
    return prose(
        _what_it_does(context, told),
        _over_the_limit(context, told),
        message("claim-mineral-acid") if _trained(told) and not burnt else None,
        year,
        message("claim-off-the-curve") if off_the_curve else None,
    )


def _what_it_does(context: BedContext, told: Told) -> Prose:
    group = told.material.group
    if told.material.key == _GYPSUM and is_sodic(context):
        return prose(message("claim-gypsum-sodic"), message("claim-gypsum-sodic-how"))
    if group is MaterialGroup.NEUTRAL_SALT:
        return prose(message("claim-neutral-salt"), message("claim-neutral-salt-reading"))
    if group is MaterialGroup.IRON:
        return prose(message("claim-iron"))
    if abs(told.brought_mmolc_m2) < _NOTHING_MMOLC_M2:
        return _nothing_lasting(told)
    if told.needed_mmolc_m2 == 0.0:
        return prose(_not_needed(told))
    if told.brought_mmolc_m2 * told.needed_mmolc_m2 < 0.0:
        return _wrong_way(told)
    share = told.brought_mmolc_m2 / told.needed_mmolc_m2
    if group is MaterialGroup.ORGANIC and share < 1.0:
        return _organic(context, told, share)
    rain = group is MaterialGroup.ACID and not _trained(told)
    return prose(
        material_comment(told.material) if rain else None,
        _by_share(told, share),
        _pace(context, told),
    )


def _trained(told: Told) -> bool:
    """True for the mineral acids that only trained people handle."""
    material = told.material
    return material.group is MaterialGroup.ACID and _TRAINED in material.cautions


def _not_needed(told: Told) -> Message:
    back = told.course is not None and told.course.alone * told.course.year < 0.0
    if told.moves and not back:
        return message("claim-none-needed-away", place=told.place)
    return message("claim-none-needed", place=told.place)


def _burnt_off(told: Told) -> bool:
    """True for vinegar and its like, whose whole course is one dip."""
    material = told.material
    return material.group is MaterialGroup.ACID and material.organic_acid_molc_kg > 0.0


def _nothing_lasting(told: Told) -> Prose:
    if _burnt_off(told):
        dips = told.change_now is not None and told.change_now < -_TOLD_PH
        first = (
            message("claim-dips", fall=ph(-(told.change_now or 0.0)))
            if dips
            else message("claim-burns-off")
        )
        return prose(first, message("claim-scorches"))
    if told.material.organic_acid_molc_kg > 0.0:
        return prose(message("claim-rots-away"), message("claim-mulch"))
    return prose(message("claim-neither"))


def _wrong_way(told: Told) -> Prose:
    organic = told.material.group is MaterialGroup.ORGANIC
    feeds = organic or told.material.group is MaterialGroup.NITROGEN
    little = feeds and -told.brought_mmolc_m2 / told.needed_mmolc_m2 < _SMALL
    if told.needed_mmolc_m2 < 0.0:
        if little:
            return prose(message("claim-little-acid-on-lime-need", place=told.place))
        return prose(message("claim-acid-on-lime-need", place=told.place))
    return prose(
        material_comment(told.material) if organic else None,
        message("claim-little-lime-on-acid-need", place=told.place)
        if little
        else message("claim-lime-on-acid-need", place=told.place),
    )


def _organic(context: BedContext, told: Told, share: float) -> Prose:
    material = told.material
    part = _part(share) | _need(told)
    if material.fast_acid_molc_kg > 0.0 and told.needed_mmolc_m2 > 0.0:
        limed = context.water_base_mmolc_m2_year > 0.0 or _limy(context)
        return prose(
            message("claim-peat", **part),
            message("claim-peat-lime") if limed else message("claim-peat-soil"),
        )
    if told.brought_mmolc_m2 > 0.0 and material.n_organic_frac > 0.0:
        return prose(material_comment(material), message("claim-organic-nitrate", **part))
    return prose(material_comment(material), message("claim-organic-left", **part))


def _by_share(told: Told, share: float) -> Message:
    slow = told.course is not None and told.course.left_frac >= _SLOW
    need = {"pace": "slow" if slow else "quick"} | _need(told)
    if share < _SMALL and not told.moves:
        return message("claim-share-unnoticed", **need, **_part(share))
    if share < _FITS[0]:
        return message("claim-share", **need, **_part(share))
    if share <= _FITS[1]:
        return message("claim-share-fits", **need)
    if share < _FAR:
        return message("claim-share-over", times=times(share), **need)
    return message("claim-share-far-over", times=times(share), **need)


def _need(told: Told) -> dict[str, Value]:
    """What an amount is held against: the need, or one pH unit for want of a target."""
    return {
        "aim": "given" if told.aim_given else "none",
        "needs": "lime" if told.needed_mmolc_m2 < 0.0 else "acid",
        "place": told.place,
    }


def _part(share: float) -> dict[str, Value]:
    return {
        "share": Measure(Quantity.SHARE, share),
        "size": "tiny" if share < _TINY else "plain",
    }


def _pace(context: BedContext, told: Told) -> Prose | Message | None:
    """What else is to be known: how much a year brings, and what takes it."""
    if told.material.group is MaterialGroup.NITROGEN:
        stays = told.brought_mmolc_m2 > 0.0 and not context.in_pot
        return prose(message("claim-feed"), message("claim-feed-stays") if stays else None)
    if told.material.group is MaterialGroup.ACID or told.course is not None:
        return None
    done = told.year_mmolc_m2 / told.brought_mmolc_m2
    unmoved = told.change_year is not None and told.change_year > -_TOLD_PH
    if told.brought_mmolc_m2 > 0.0 and unmoved and done >= _SMALL and _limy(context):
        return message("claim-lime-first")
    if done < 0.7:
        return message("claim-pace", done=Measure(Quantity.SHARE, done))
    return None


def _over_the_limit(context: BedContext, told: Told) -> Prose | Message | None:
    cap = product_cap(told.material, cap_situation=context.cap_situation)
    if cap is None or told.rate_g_m2 <= 0.0:
        return None
    passed = limit_passed(cap, rate_g_m2=told.rate_g_m2)
    if passed is None:
        return None
    values: dict[str, Value] = {
        "rate": rate(told.rate_g_m2, against=passed.printed_g_m2),
        "limit": rate(passed.printed_g_m2, against=told.rate_g_m2),
        "times": times(passed.times),
        "on": cap.ground,
        "substance": cap.applies_to.value.replace(" ", "-"),
    }
    if passed.per == "year":
        danger = "yes" if is_overdose(passed.times) else "no"
        return message("claim-over-year", danger=danger, **values)
    return prose(message("claim-over-once", **values), message("claim-over-once-split"))


def _limy(context: BedContext) -> bool:
    soil = context.soil
    return soil is not None and soil.carbonate.zero_weight < 0.5 and soil.carbonate.high_pct > 0.0
