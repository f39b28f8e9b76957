"""The sentence or two an adviser says about a claim."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Final

from loamshift.domain.bed_context import BedContext
from loamshift.domain.material import Material, MaterialGroup
from loamshift.services.claim.year_words import year_words
from loamshift.services.format import format_rate, format_times_limit
from loamshift.services.materials.caps import GROUND_WORDS, is_overdose, limit_passed, product_cap

if TYPE_CHECKING:
    from loamshift.services.claim.course import Course

_NOTHING_MMOLC_M2: Final = 1.0
"""Less than a sixtieth of a gram of sulfur [mmolc/m2]."""
_SMALL: Final = 0.1
"""Share of the need below which a material is no help [1]."""
_FITS: Final = (0.8, 1.25)
_TOLD_PH: Final = 0.05
_SLOW: Final = 0.3
"""Share unreacted after a year from which the whole is called its end [1]."""
_LIMITED: Final = {
    "sulfur": "sulfur",
    "nitrogen": "nitrogen",
    "limestone": "lime, counted as pure calcium carbonate",
    "aluminium sulfate": "aluminium sulfate with 18 water",
    "iron sulfate": "iron sulfate with 7 water",
}


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
    noun: str = "bed"
    """What this ground is called: bed, pot, lawn or field."""
    course: Course | None = None

    @property
    def moves(self) -> bool:
        """True where a change is worth telling, now or after a year."""
        changes = (self.change_now, self.change_year)
        return any(change is None or abs(change) >= _TOLD_PH for change in changes)


def comment(context: BedContext, told: Told) -> str:
    """What an adviser says: what it does, and what stands against it.

    Parameters
    ----------
    context
        The bed as understood [object].
    told
        Figures of the claim [object].

    Returns
    -------
    str
        One to three sentences, and those of the year where the column was run [text].
    """
    sentences = [_what_it_does(context, told), _over_the_limit(context, told)]
    if told.material.group is MaterialGroup.ACID and not _burnt_off(told):
        sentences.append("Mineral acid is for treating water by trained people, never for a bed.")
    off_the_curve = told.change_now is None or told.change_year is None
    if told.course is not None and not off_the_curve and not _burnt_off(told):
        sentences += year_words(
            context,
            told.material,
            told.course,
            noun=told.noun,
            acidifies=told.brought_mmolc_m2 > 0.0,
            against_the_aim=told.brought_mmolc_m2 * told.needed_mmolc_m2 < 0.0,
        )
    if off_the_curve:
        sentences.append(
            "So much takes the soil off the curve, below pH 3 or above 11, where no figure holds."
        )
    return " ".join(sentence for sentence in sentences if sentence)


def _what_it_does(context: BedContext, told: Told) -> str:
    group = told.material.group
    if group is MaterialGroup.NEUTRAL_SALT:
        return (
            "It brings no acid, whatever the label says. As a salt it can lower a reading in "
            "water for a while; the soil is no more acid for it."
        )
    if group is MaterialGroup.IRON:
        return "It feeds iron to the leaves and leaves the pH where it is."
    if abs(told.brought_mmolc_m2) < _NOTHING_MMOLC_M2:
        return _nothing_lasting(told)
    if told.needed_mmolc_m2 == 0.0:
        return _not_needed(told)
    if told.brought_mmolc_m2 * told.needed_mmolc_m2 < 0.0:
        return _wrong_way(told)
    share = told.brought_mmolc_m2 / told.needed_mmolc_m2
    if group is MaterialGroup.ORGANIC and share < 1.0:
        return _organic(context, told, share)
    lead = _by_share(told, share)
    return f"{lead} {_pace(context, told)}".strip()


def _not_needed(told: Told) -> str:
    if told.course is not None and told.course.alone * told.course.year < 0.0:
        return f"This {told.noun} needs neither acid nor lime today."
    text = f"This {told.noun} needs neither acid nor lime"
    return f"{text}, so this only carries it away from its aim." if told.moves else f"{text}."


def _burnt_off(told: Told) -> bool:
    """True for vinegar and its like, whose whole course is one dip."""
    material = told.material
    return material.group is MaterialGroup.ACID and material.organic_acid_molc_kg > 0.0


def _nothing_lasting(told: Told) -> str:
    if _burnt_off(told):
        if told.change_now is not None and told.change_now < -_TOLD_PH:
            return (
                f"Soil life burns this acid off: the pH dips by about {-told.change_now:.1f} for "
                "some days and then comes back, and the leaves it touches are scorched."
            )
        return (
            "Soil life burns this acid off within days, so nothing of it lasts; the leaves it "
            "touches are scorched."
        )
    if told.material.organic_acid_molc_kg > 0.0:
        return "Its own sourness goes as it rots and leaves no acid behind; use it as a mulch."
    return "It neither acidifies nor limes."


def _wrong_way(told: Told) -> str:
    feeds = told.material.group in (MaterialGroup.NITROGEN, MaterialGroup.ORGANIC)
    little = feeds and -told.brought_mmolc_m2 / told.needed_mmolc_m2 < _SMALL
    if told.needed_mmolc_m2 < 0.0:
        if little:
            return f"In the end it acidifies a little, and this {told.noun} needs lime."
        return f"It acidifies, and this {told.noun} needs lime: keep it off."
    if told.material.group is MaterialGroup.ORGANIC:
        said = "lim" in told.material.comment
        return told.material.comment + ("" if said else " In the end it limes slightly.")
    if little:
        return f"It limes a little, and this {told.noun} needs acid."
    return f"It limes, and this {told.noun} needs acid: keep it off."


def _organic(context: BedContext, told: Told, share: float) -> str:
    material = told.material
    percent = f"{_percent(share)} of {_need(told)}"
    if material.fast_acid_molc_kg > 0.0 and told.needed_mmolc_m2 > 0.0:
        text = f"It brings real acid, {percent}, but it can take the soil no lower than its own pH"
        if context.water_base_mmolc_m2_year > 0.0 or _limy(context):
            return f"{text}, and lime in the soil or the water uses it up from the edges."
        return f"{text}, and the soil under and around it gives base back."
    if told.brought_mmolc_m2 > 0.0 and material.n_organic_frac > 0.0:
        return f"{material.comment} Once all its nitrogen has turned to nitrate, that is {percent}."
    return f"{material.comment} What it leaves behind in the end is {percent}."


def _by_share(told: Told, share: float) -> str:
    need = _need(told)
    slow = told.course is not None and told.course.left_frac >= _SLOW
    that = "In the end that" if slow else "That"
    if share < _SMALL and not told.moves:
        return f"{that} is {_percent(share)} of {need}: too little for a test to notice."
    if share < _FITS[0]:
        return f"{that} is {_percent(share)} of {need}."
    if share <= _FITS[1]:
        return f"{that} is about {need}."
    if share < 10.0:
        return f"{that} is {share:.1f} times {need}: too much."
    return f"{that} is {share:.0f} times {need}: far too much."


def _need(told: Told) -> str:
    if not told.aim_given:
        return "the acid of one pH unit, for want of an aim"
    return f"the {'lime' if told.needed_mmolc_m2 < 0.0 else 'acid'} this {told.noun} needs"


def _pace(context: BedContext, told: Told) -> str:
    """What else is to be known: how much a year brings, and what takes it."""
    if told.material.group is MaterialGroup.NITROGEN:
        acid = told.brought_mmolc_m2 > 0.0 and not context.in_pot
        stays = ", and in open ground about a third of its acid stays" if acid else ""
        return f"It is a feed first{stays}: give it for the nitrogen the plants need."
    if told.material.group is MaterialGroup.ACID:
        return ""
    if told.course is not None:
        return ""
    done = told.year_mmolc_m2 / told.brought_mmolc_m2
    unmoved = told.change_year is not None and told.change_year > -_TOLD_PH
    if told.brought_mmolc_m2 > 0.0 and unmoved and done >= _SMALL and _limy(context):
        return "The free lime of this soil takes it first, so the pH does not move."
    if done < 0.7:
        return f"Only about {_percent(done)} of it reacts within a year."
    return ""


def _over_the_limit(context: BedContext, told: Told) -> str:
    cap = product_cap(told.material, cap_situation=context.cap_situation)
    if cap is None or told.rate_g_m2 <= 0.0:
        return ""
    passed = limit_passed(cap, rate_g_m2=told.rate_g_m2)
    if passed is None:
        return ""
    units = context.case.units
    ground = GROUND_WORDS[cap.ground]
    named = f"{format_rate(told.rate_g_m2, units)} is {format_times_limit(passed.times)}"
    limit = f"{format_rate(passed.printed_g_m2, units)} of {_LIMITED[cap.applies_to]}"
    if passed.per == "year":
        text = f"{named} the yearly limit for {ground}, {limit}"
        return f"{text}: a dangerous overdose." if is_overdose(passed.times) else f"{text}."
    return (
        f"{named} what may go on {ground} at once, {limit}: "
        "put it on in parts and test between them."
    )


def _percent(share: float) -> str:
    if share < 0.01:
        return "less than 1 %"
    return f"{100.0 * share:.0f} %" if share >= 0.095 else f"{100.0 * share:.1g} %"


def _limy(context: BedContext) -> bool:
    soil = context.soil
    return soil is not None and soil.carbonate.zero_weight < 0.5 and soil.carbonate.high_pct > 0.0
