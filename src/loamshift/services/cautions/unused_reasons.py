"""Why a fact of a case can be left unused, in words, and what the facts are called."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum

from loamshift.domain.answer import Decision, Direction


class Why(StrEnum):
    """Why a fact that was given has no influence on this answer."""

    NO_PH = "no-ph"
    NO_AIM = "no-aim"
    NO_PLACE = "no-place"
    NOTHING_APPLIED = "nothing-applied"
    LIME_IDLE = "lime-idle"
    TOO_ACID_FOR_LIME = "too-acid-for-lime"
    NO_COMMON_RANGE = "no-common-range"
    NO_LIME_WANTED = "no-lime-wanted"
    NO_WATERING = "no-watering"
    MEDIUM_HAS_ITS_OWN = "medium-has-its-own"
    TEXTURE_GIVEN = "texture-given"
    SHARES_GIVEN = "shares-given"
    ONE_SHARE = "one-share"
    CARBON_GIVEN = "carbon-given"
    CARBONATE_GIVEN = "carbonate-given"
    NO_FIZZ = "no-fizz"
    NO_ACID_PLANNED = "no-acid-planned"
    NO_EC = "no-ec"
    NO_TARGET_PH = "no-target-ph"
    RESISTANCE = "resistance"
    STOPPED = "stopped"
    CLAY_TYPE_USUAL = "clay-type-usual"
    NOT_PER_PLANT = "not-per-plant"
    PLANTED_GIVEN = "planted-given"
    TREATED_DEPTH = "treated-depth"
    DEPTHS_AGREE = "depths-agree"
    OWN_CLIMATE = "own-climate"
    NEUTRAL = "neutral"
    ALL_ACTED = "all-acted"
    SODIUM_FIRST = "sodium-first"
    WRONG_WAY = "wrong-way"
    NO_PRICE = "no-price"
    NOT_COMPARED = "not-compared"


@dataclass(frozen=True, slots=True)
class Unused:
    """A fact without influence: its path in the case file, and why."""

    path: str
    why: Why


@dataclass(frozen=True, slots=True, kw_only=True)
class AnswerUse:
    """What an answer was made with, as far as it decides which facts count.

    ``compared`` are the material keys of its options; ``held_by_sodium`` where sodium holds the
    pH, or most likely does.
    """

    decision: Decision
    direction: Direction
    compared: tuple[str, ...]
    has_forecast: bool
    has_rescue: bool
    held_by_sodium: bool = False


REASONS: Mapping[Why, str] = {
    Why.NO_PH: "They are kept for when the pH of the soil is known.",
    Why.NO_AIM: "They are kept for when you say what you want to grow.",
    Why.NO_PLACE: "Without a place there is no yearly course to compare them with.",
    Why.NOTHING_APPLIED: "They would matter only if this answer called for something to be "
    "applied.",
    Why.LIME_IDLE: "Free lime has a say only where the pH is to be changed or kept.",
    Why.TOO_ACID_FOR_LIME: "So acid a soil is taken to hold no free lime in any case.",
    Why.NO_COMMON_RANGE: "No one pH suits all of these plants, whatever the date.",
    Why.NO_LIME_WANTED: "Magnesium matters only for the choice between kinds of limestone.",
    Why.NO_WATERING: "Nothing says that the bed is watered.",
    Why.MEDIUM_HAS_ITS_OWN: "For a peat or bark mix, figures of the mix are used instead.",
    Why.TEXTURE_GIVEN: "The texture class that is given as well is used.",
    Why.SHARES_GIVEN: "Sand and clay already give the texture.",
    Why.ONE_SHARE: "One share alone does not give the texture: add the clay.",
    Why.CARBON_GIVEN: "The organic carbon that is given as well is used.",
    Why.CARBONATE_GIVEN: "The free lime that the laboratory measured is used instead.",
    Why.NO_FIZZ: "Without the result of the fizz test the acid says nothing.",
    Why.NO_ACID_PLANNED: "Which acid showed so weak a fizz matters only where acid is planned.",
    Why.NO_EC: "Without the conductivity the extract says nothing.",
    Why.NO_TARGET_PH: "The method belongs to a target pH, and none is given.",
    Why.RESISTANCE: "They say nothing about how strongly this soil resists.",
    Why.STOPPED: "The answer is to stop first, and that does not hang on them.",
    Why.CLAY_TYPE_USUAL: "The usual curve holds for it: only volcanic soil needs another.",
    Why.NOT_PER_PLANT: "No amount here is given per plant.",
    Why.PLANTED_GIVEN: "It matters here only that the bed is planted.",
    Why.TREATED_DEPTH: "Your soil temperatures are taken as those of the treated depth.",
    Why.DEPTHS_AGREE: "The readings agree, so their depths explain nothing.",
    Why.OWN_CLIMATE: "Your own climate figures are used instead.",
    Why.NEUTRAL: "These materials bring neither acid nor lime.",
    Why.SODIUM_FIRST: "Sodium comes first; they count again once it is known not to be the cause.",
    Why.ALL_ACTED: "They had done all they could before the soil was read.",
    Why.WRONG_WAY: "These products do not move the pH in the direction needed.",
    Why.NOT_COMPARED: "No amounts of products are compared here, so nothing is priced.",
    Why.NO_PRICE: "Without a price and the weight of its pack there is no cost.",
}

NAMES: Mapping[str, str] = {
    "place.longitude": "longitude",
    "place.rain_mm": "monthly rainfall",
    "place.soil_temp": "soil temperatures",
    "place.soil_temp.depth": "depth of the soil thermometer",
    "bed.plants": "number of plants",
    "bed.planted": "whether the bed is planted",
    "bed.growing": "the plants already there",
    "soil.texture": "texture",
    "soil.sand_pct": "sand",
    "soil.silt_pct": "silt",
    "soil.clay_pct": "clay",
    "soil.organic_matter_pct": "organic matter",
    "soil.organic_carbon_pct": "organic carbon",
    "soil.medium": "growing medium",
    "soil.carbonate_pct": "free lime",
    "soil.fizz": "fizz test",
    "soil.fizz_acid": "acid of the fizz test",
    "soil.buffer_ph": "buffer pH",
    "soil.buffer_ph_method": "name of the buffer",
    "soil.cec_cmolc_kg": "cation exchange capacity",
    "soil.base_saturation_pct": "base saturation",
    "soil.exchangeable_al_cmolc_kg": "exchangeable aluminium",
    "soil.mg_saturation_pct": "magnesium saturation",
    "soil.lab_lime_requirement": "laboratory's lime figure",
    "soil.ec_ds_m": "conductivity",
    "soil.ec_method": "extract of the conductivity",
    "soil.bulk_density_g_cm3": "bulk density",
    "soil.clay_type": "clay type",
    "soil.sample_depth": "depth of the sample",
    "aim.target_method": "method of the target pH",
    "aim.by": "the wanted date",
    "water.alkalinity": "alkalinity of the water",
    "water.weekly": "weekly watering",
    "water.months": "months of watering",
    "feed": "feed",
    "feed.times": "how often the feed is given",
    "on_hand": "product on hand",
    "on_hand.price": "price of the product on hand",
    "on_hand.pack": "pack of the product on hand",
    "on_hand.currency": "currency of the product on hand",
    "applied": "application",
    "applied.incorporated": "depth worked in of application",
    "reading": "reading",
    "reading.depth": "depth of reading",
    "titration": "jar titration",
    "claim": "proposed amount",
}
"""What the facts are called inside a sentence, by their path without the number of the entry."""

_ENTRY = re.compile(r"\[(\d+)\]")


def fact_called(path: str) -> str:
    """A fact inside a sentence.

    Parameters
    ----------
    path
        Its path in the case file, such as ``applied[2]`` [text].

    Returns
    -------
    str
        Its name, with the number of the entry [text].
    """
    name = NAMES[_ENTRY.sub("", path)]
    number = _ENTRY.search(path)
    return name if number is None else f"{name} {number[1]}"
