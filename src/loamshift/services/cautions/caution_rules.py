"""The rules of the cautions: each says which codes a fact of the bed calls for.

A rule reads fields, never words; ``tests/contracts`` holds for each the least case that must
show its code and the nearest one that must not.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Final

from loamshift.domain.answer import Decision, Direction, Reason
from loamshift.domain.case import Drainage, Sign, Site, Surrounding
from loamshift.domain.material import Material, MaterialGroup
from loamshift.domain.ph import PhMethod
from loamshift.services.cautions.caution_facts import CautionFacts
from loamshift.services.cautions.entry_doubts import entry_doubts
from loamshift.services.materials.caps import Substance
from loamshift.services.rescue.rescue import may_turn_too_acid
from loamshift.tables.model import verdict_values

COLD_C: Final = 5.0
AMMONIA_PH: Final = 7.5
"""Above this ammonia escapes from ammonium and urea by itself [pH in water]."""
AMMONIA_DAYS: Final = 30
"""Lime and ammonium this near to each other still meet [d]."""
HAZARDS: Final = frozenset(
    {"sulfur-dust", "caustic-lime", "acid-handling", "aluminium", "iron-stain"}
)
"""What a product does to whoever handles it; said even of products merely compared."""
SALTS: Final = frozenset({Substance.ALUMINIUM_SULFATE, Substance.IRON_SULFATE, Substance.NITROGEN})
WET: Final = (Drainage.SLOW, Drainage.WATERLOGGED)
COMPARING: Final = (Decision.GO, Decision.EFFORT)
"""Where a letter lists other ways; one that waits for a test lists none."""
SULFATES: Final = (MaterialGroup.SULFUR, MaterialGroup.ACID_SALT)
"""What makes hydrogen sulfide where no air reaches it."""

AROUND: Final = {
    Surrounding.LIMESTONE_GRAVEL: "beside-limestone",
    Surrounding.CONCRETE: "beside-concrete",
    Surrounding.MORTAR: "mortar-rubble",
    Surrounding.LINED_TRENCH: "lined-trench",
    Surrounding.OVER_CHALK: "over-chalk",
}
SEEN: Final = {
    Sign.YELLOW_YOUNG: "yellow-young",
    Sign.YELLOW_OLD: "yellow-old",
    Sign.SCORCHED_EDGES: "scorched-edges",
    Sign.TOO_DEEP: "too-deep",
    Sign.WET_FEET: "wet-feet",
}
COLOURS: Final = {
    "hydrangea (blue flowers)": "blue-flowers",
    "hydrangea (pink flowers)": "pink-flowers",
}
DISEASES: Final = {"potato": "potato-scab"} | dict.fromkeys(
    (
        *("broccoli", "brussels sprouts", "cabbage", "cauliflower", "chinese cabbage", "kale"),
        *("kohlrabi", "mustard greens", "oilseed rape", "pak choi", "radish", "swede (rutabaga)"),
        *("turnip", "white mustard"),
    ),
    "club-root",
)
"""Diseases of roots and tubers for which growers choose a pH, by the plant."""

Codes = Iterable[str]
Rule = Callable[[CautionFacts], Codes]


def _carried(materials: Iterable[Material], among: frozenset[str]) -> set[str]:
    return {code for item in materials for code in item.cautions} & among


def _given(code: str, *, when: bool) -> Codes:
    return (code,) if when else ()


def handling_planned(facts: CautionFacts) -> Codes:
    """Handling of what goes on by the plan."""
    return _carried(facts.planned, HAZARDS)


def handling_compared(facts: CautionFacts) -> Codes:
    """Handling of what stands beside the plan as another way."""
    return _carried(facts.compared, HAZARDS) if facts.decision in COMPARING else ()


def handling_proposed(facts: CautionFacts) -> Codes:
    """Handling of what is proposed, and what it leaves in the ground."""
    return _carried(facts.proposed, HAZARDS | {"nitrogen", "metals", "children-pets"})


def handling_taken_up(facts: CautionFacts) -> Codes:
    """Handling of an overdose that has to be raked off again."""
    return _carried(facts.taken_up, HAZARDS)


def acid_into_water(facts: CautionFacts) -> Codes:
    """Water that has to be treated first, by acid among other ways."""
    waits = facts.decision is Decision.MEASURE_FIRST
    treat = facts.reason is Reason.WATER and not waits
    return _given("acid-handling", when=treat)


def salt_in_soil(facts: CautionFacts) -> Codes:
    """A soil that is too salty already."""
    return _given("salt", when=facts.reason is Reason.SALT)


def salt_put_on(facts: CautionFacts) -> Codes:
    """A salt or feed put on or proposed beyond its limit."""
    return _given("salt", when=bool(facts.substances_over_limit & SALTS))


def aluminium_lying(facts: CautionFacts) -> Codes:
    """Aluminium salts already put on."""
    return _carried(facts.lying, frozenset({"aluminium"}))


def aluminium_of_acid_soil(facts: CautionFacts) -> Codes:
    """Aluminium that very acid soil sets free by itself."""
    return _given("aluminium", when=facts.reason is Reason.TOO_ACID)


def nitrogen_over_limit(facts: CautionFacts) -> Codes:
    """More nitrogen put on than the plants can use."""
    return _given("nitrogen", when=Substance.NITROGEN in facts.substances_over_limit)


def sulfide_where_wet(facts: CautionFacts) -> Codes:
    """Sulfur or sulfates planned, proposed or lying where water stands."""
    wet = facts.context.case.bed.drainage in WET
    found = any(item.group in SULFATES for item in (*facts.goes_on, *facts.lying))
    return _given("hydrogen-sulfide", when=wet and found)


def sulfide_where_unknown(facts: CautionFacts) -> Codes:
    """Sulfur planned where nobody said how the ground drains."""
    unknown = facts.context.case.bed.drainage is None
    found = any(item.group in SULFATES for item in facts.planned)
    return _given("hydrogen-sulfide", when=unknown and found)


def sulfide_of_wet_ground(facts: CautionFacts) -> Codes:
    """Standing water that forbids sulfur."""
    return _given("hydrogen-sulfide", when=facts.reason is Reason.WATERLOGGED)


def puts_sulfur_on_wet_ground(facts: CautionFacts) -> bool:
    """Whether sulfur or a sulfate is planned, compared, proposed or was wanted here."""
    named = (*facts.goes_on, *facts.compared)
    return facts.reason is Reason.WATERLOGGED or any(one.group in SULFATES for one in named)


def metals_by_acid(facts: CautionFacts) -> Codes:
    """Acid put on, planned or proposed on old urban or orchard ground."""
    old = facts.context.case.bed.site in (Site.OLD_URBAN, Site.OLD_ORCHARD)
    acid = facts.moves((*facts.goes_on, *facts.lying), Direction.ACIDIFY)
    return _given("metals", when=old and acid)


def metals_by_lime(facts: CautionFacts) -> Codes:
    """Lime put on, planned or proposed where arsenic was sprayed: it moves as the pH rises."""
    orchard = facts.context.case.bed.site is Site.OLD_ORCHARD
    lime = facts.moves((*facts.goes_on, *facts.lying), Direction.LIME)
    return _given("metals", when=orchard and lime)


def free_lime(facts: CautionFacts) -> Codes:
    """Acid advice on soil that holds, or may hold, free lime."""
    soil = facts.context.soil
    limy = soil is not None and soil.carbonate.is_possible
    judged = facts.acidify and facts.decision not in (Decision.STOP, Decision.LEAVE)
    return _given("free-lime", when=limy and judged)


def water_against_acid(facts: CautionFacts) -> Codes:
    """Water that limes a bed which is to be made acid."""
    limes = facts.context.water_base_mmolc_m2_year > 0.0
    judged = facts.acidify and facts.decision not in (Decision.STOP, Decision.LEAVE)
    return _given("water-alkalinity", when=limes and judged)


def water_decides(facts: CautionFacts) -> Codes:
    """Water that the judgement rests on."""
    decides = facts.reason in (Reason.WATER, Reason.UNKNOWN_WATER)
    return _given("water-alkalinity", when=decides)


def cold_soil(facts: CautionFacts) -> Codes:
    """Sulfur where the soil is cold for part of the year."""
    temps = facts.context.soil_temp_c
    cold = bool(temps) and min(temps) < COLD_C
    found = any(item.group is MaterialGroup.SULFUR for item in facts.goes_on)
    return _given("cold-soil", when=cold and found)


def too_early(facts: CautionFacts) -> Codes:
    """A plan, whose effect nobody can judge at once."""
    return _given("too-early", when=facts.acts)


def over_cap(facts: CautionFacts) -> Codes:
    """An amount put on or proposed beyond a printed limit."""
    return _given("over-cap", when=facts.over_limit)


def overdose_by_amount(facts: CautionFacts) -> Codes:
    """An amount put on or proposed so far beyond it that it is an overdose."""
    return _given("overdose", when=facts.refused or bool(facts.overdoses))


def overdose_judged(facts: CautionFacts) -> Codes:
    """A bed that what lies there brings to harm, within the limits or not."""
    return _given("overdose", when=facts.reason is Reason.OVERDOSE)


def too_acid_soil(facts: CautionFacts) -> Codes:
    """Soil that reads too acid for roots, and may be acid sulfate soil."""
    return ("too-acid", "acid-sulfate") if facts.reason is Reason.TOO_ACID else ()


def too_acid_by_overdose(facts: CautionFacts) -> Codes:
    """Soil that an overdose of acid may bring there; not where the soil takes all of it up."""
    return _given("too-acid", when=facts.overdose_is_acid and may_turn_too_acid(facts.context))


def rough_reading(facts: CautionFacts) -> Codes:
    """A pH by stab probe or strip."""
    soil = facts.context.soil
    rough = soil is not None and soil.ph.method in (PhMethod.PROBE, PhMethod.STRIP)
    return _given("probe-reading", when=rough)


def unknown_method(facts: CautionFacts) -> Codes:
    """A pH without its method."""
    soil = facts.context.soil
    return _given("method-unknown", when=soil is not None and soil.ph.method is PhMethod.UNKNOWN)


def measured_by_volume(facts: CautionFacts) -> Codes:
    """An amount in cups, spoons or handfuls."""
    case = facts.context.case
    applied = any(entry.in_household_measures for entry in case.applied)
    proposed = any(entry.in_household_measures for entry in case.claims)
    return _given("unit-slip", when=applied or proposed)


def doubtful_figure(facts: CautionFacts) -> Codes:
    """A figure that looks like a slip of the unit."""
    return _given("unit-slip", when=bool(entry_doubts(facts.context.case)))


def neutral_salt(facts: CautionFacts) -> Codes:
    """A salt that brings no acid, proposed or put on."""
    salts = (item.group is MaterialGroup.NEUTRAL_SALT for item in (*facts.proposed, *facts.lying))
    return _given("neutral-salt", when=any(salts))


def split(facts: CautionFacts) -> Codes:
    """Acid that goes on in several parts."""
    return _given("split", when=facts.acidify and facts.parts > 1)


def established_roots(facts: CautionFacts) -> Codes:
    """Acid that goes on ground with roots in it."""
    planted = facts.context.cap_situation == "planted"
    return _given("established-roots", when=facts.acidify and facts.acts and planted)


def iron_chlorosis(facts: CautionFacts) -> Codes:
    """Lime-hating plants that stand where the pH stays too high for them."""
    context, soil = facts.context, facts.context.soil
    target = context.target
    if soil is None or target is None or not (context.planted and target.calcifuge):
        return ()
    stays = facts.decision is Decision.ELSEWHERE and soil.ph.ph_water > target.ph_high
    return _given("iron-chlorosis", when=stays)


def ammonia_of_lime(facts: CautionFacts) -> Codes:
    """Lime or ash planned or proposed."""
    return _given("ammonia", when=facts.moves(facts.goes_on, Direction.LIME))


def ammonia_beside_lime(facts: CautionFacts) -> Codes:
    """Ammonium or urea proposed where lime was put on a short while ago."""
    limed = facts.moves(facts.put_on_within(AMMONIA_DAYS), Direction.LIME)
    return _given("ammonia", when=limed and any(map(_sets_ammonia_free, facts.proposed)))


def ammonia_of_soil(facts: CautionFacts) -> Codes:
    """Ammonium or urea proposed on soil from which ammonia escapes by itself."""
    soil = facts.context.soil
    high = soil is not None and soil.ph.ph_water > AMMONIA_PH
    return _given("ammonia", when=high and any(map(_sets_ammonia_free, facts.proposed)))


def ammonia_of_one_bag(facts: CautionFacts) -> Codes:
    """Ammonium or urea proposed in one bag with lime, as its label says."""
    both = (
        material.caco3_eq_frac > 0.0 and material.n_as_nh4_frac + material.n_as_urea_frac > 0.0
        for material in facts.proposed
        if _sets_ammonia_free(material)
    )
    return _given("ammonia", when=any(both))


def _sets_ammonia_free(material: Material) -> bool:
    return "ammonia" in material.cautions


def children_and_pets(facts: CautionFacts) -> Codes:
    """Anything that goes on by the plan, or has to be raked off again."""
    return _given("children-pets", when=facts.acts or bool(facts.taken_up))


def sodic(facts: CautionFacts) -> Codes:
    """Sodium on more of the exchange sites than a soil bears."""
    sodium = facts.context.case.soil.sodium_pct
    return _given("sodic", when=sodium is not None and sodium > verdict_values()["sodic_pct"])


def lime_around(facts: CautionFacts) -> Codes:
    """What beside, in or below the bed gives lime back to it."""
    return (AROUND[one] for one in facts.context.case.bed.surroundings)


def signs_of_plants(facts: CautionFacts) -> Codes:
    """What the plants show."""
    return (SEEN[one] for one in facts.context.case.bed.signs)


def flower_colour(facts: CautionFacts) -> Codes:
    """Hydrangeas wanted in a colour."""
    return (COLOURS[one.key] for one in facts.context.case.aim.plants if one.key in COLOURS)


def disease_of_plant(facts: CautionFacts) -> Codes:
    """Plants whose pH is chosen against a disease."""
    return (DISEASES[one.key] for one in facts.context.case.aim.plants if one.key in DISEASES)


RULES: Final[tuple[Rule, ...]] = (
    handling_planned,
    handling_compared,
    handling_proposed,
    handling_taken_up,
    acid_into_water,
    salt_in_soil,
    salt_put_on,
    aluminium_lying,
    aluminium_of_acid_soil,
    nitrogen_over_limit,
    sulfide_where_wet,
    sulfide_where_unknown,
    sulfide_of_wet_ground,
    metals_by_acid,
    metals_by_lime,
    free_lime,
    water_against_acid,
    water_decides,
    cold_soil,
    too_early,
    over_cap,
    overdose_by_amount,
    overdose_judged,
    too_acid_soil,
    too_acid_by_overdose,
    rough_reading,
    unknown_method,
    measured_by_volume,
    doubtful_figure,
    neutral_salt,
    split,
    established_roots,
    iron_chlorosis,
    ammonia_of_lime,
    ammonia_beside_lime,
    ammonia_of_soil,
    ammonia_of_one_bag,
    children_and_pets,
    sodic,
    lime_around,
    signs_of_plants,
    flower_colour,
    disease_of_plant,
)
"""Every rule, each of them shown by a case of its own."""

HANDLING_RULES: Final[tuple[Rule, ...]] = (
    handling_planned,
    handling_taken_up,
    acid_into_water,
    aluminium_lying,
    sulfide_where_wet,
    sulfide_where_unknown,
    metals_by_acid,
    metals_by_lime,
    established_roots,
    ammonia_of_lime,
    children_and_pets,
)
"""Those that speak of what somebody applies, takes up or treats by this advice."""
