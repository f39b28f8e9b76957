"""Why a fact of a case can be left unused; the words stand under ``unused-REASON``."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from loamshift.domain.answer import Decision, Direction, Reason
from loamshift.domain.worth import FurtherTest


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
    POT_ALL_DEPTHS = "pot-all-depths"
    POT_HAS_NO_SUBSOIL = "pot-has-no-subsoil"
    DEPTHS_AGREE = "depths-agree"
    OWN_CLIMATE = "own-climate"
    NEUTRAL = "neutral"
    ALL_ACTED = "all-acted"
    SODIUM_FIRST = "sodium-first"
    WRONG_WAY = "wrong-way"
    NO_PRICE = "no-price"
    NOT_COMPARED = "not-compared"
    NO_PRICE_IN_IT = "no-price-in-it"
    TEST_NOT_WEIGHED = "test-not-weighed"
    NOT_DUG = "not-dug"
    USUAL_HUMUS = "usual-humus"
    NO_BEFORE = "no-before"
    NO_HYDRANGEA = "no-hydrangea"
    POTS_NOT_ASKED = "pots-not-asked"
    POTS_NO_FORECAST = "pots-no-forecast"
    POTS_IS_POT = "pots-is-pot"
    POTS_OUTGROWN = "pots-outgrown"
    POTS_OTHER_FIRST = "pots-other-first"


@dataclass(frozen=True, slots=True)
class Unused:
    """A fact without influence: its path in the case file, and why."""

    path: str
    why: Why


@dataclass(frozen=True, slots=True, kw_only=True)
class AnswerUse:
    """What an answer was made with, as far as it decides which facts count.

    ``compared`` are the material keys of its options, ``weighed`` the tests it
    weighed; ``held_by_sodium`` where sodium holds the
    pH, or most likely does; ``has_pots`` where pots are compared with the ground.
    """

    decision: Decision
    direction: Direction
    compared: tuple[str, ...]
    weighed: tuple[FurtherTest, ...]
    has_forecast: bool
    has_rescue: bool
    held_by_sodium: bool = False
    reason: Reason | None = None
    has_pots: bool = False
