"""The unit of every key of the answer that has one; what the keys mean stands in messages."""

from __future__ import annotations

import re
from typing import Final, NamedTuple

from loamshift.domain.message import Given, Message, choice, message

ANSWER_UNITS: Final[dict[str, dict[str, str]]] = {
    "Answer": {
        "today": "date",
        "too_early_before": "date",
        "retest": "date",
        "balance_error": "mmolc/m2",
    },
    "MadeBy": {"members": "count", "years": "years"},
    "Verdict": {"ph_now": "pH"},
    "Finding": {"value": "unit", "limit": "unit"},
    "Worth": {"now": "0-1", "most": "0-1"},
    "WorthOfTest": {
        "gain": "0-1",
        "changes": "0-1",
        "cost": "currency",
        "days": "days",
        "on": "date",
    },
    "SamplesOfGround": {"cores": "count", "core_error_ph": "pH", "mixed_error_ph": "pH"},
    "SamplesLine": {"samples": "count", "error_ph": "pH", "gain": "0-1", "cost": "currency"},
    "Wanted": {"ph_low": "pH", "ph_high": "pH", "ph_aim": "pH"},
    "Dose": {
        "acid_mmolc_kg": "mmolc/kg",
        "sulfur_as_s_g_m2": "g/m2",
        "lime_as_caco3_g_m2": "g/m2",
        "carbonate_share": "0-1",
        "published_g_m2": "g/m2",
    },
    "DoseByForecast": {
        "sulfur_as_s_g_m2": "g/m2",
        "lime_as_caco3_g_m2": "g/m2",
        "by": "date",
        "share_in_range": "0-1",
        "share_past_limit": "0-1",
        "median_ph_by": "pH",
        "median_in_range_on": "date",
    },
    "Band": {"lo90": "as its key", "mid": "as its key", "hi90": "as its key"},
    "PublishedSpread": {"n_sources": "count", "low": "g/m2", "high": "g/m2"},
    "Application": {"date": "date", "rate_g_m2": "g/m2", "amount_g": "g", "incorporate_cm": "cm"},
    "PlanRule": {
        "share_in_range": "0-1",
        "share_in_range_without_tests": "0-1",
        "share_if_known": "0-1",
        "share_harmed": "0-1",
        "median_ph": "pH",
        "on": "date",
        "acted_on": "date",
    },
    "PlanPart": {"date": "date", "rate_g_m2": "g/m2", "amount_g": "g"},
    "TestLine": {
        "test": "date",
        "reads_from": "pH",
        "reads_to": "pH",
        "part_g_m2": "g/m2",
        "part_on": "date",
        "ph_after": "pH",
    },
    "Branch": {"probability": "0-1", "sulfur_as_s_g_m2": "g/m2", "lime_as_caco3_g_m2": "g/m2"},
    "Refit": {"readings": "count", "effective_members": "count"},
    "AcidScale": {"prior": "times", "now": "times"},
    "Option": {
        "rate_g_m2": "g/m2",
        "amount_g": "g",
        "cost": "currency",
        "cost_per_mol_acid": "currency/molc",
        "cost_per_kg_caco3_eq": "currency/kg",
        "weeks_to_half": "weeks",
        "ec_rise_ds_m": "dS/m",
    },
    "Forecast": {"dates": "date", "ph": "pH", "do_nothing": "pH"},
    "WidthShare": {"share": "0-1"},
    "ForecastPh": {"q05": "pH", "q25": "pH", "q50": "pH", "q75": "pH", "q95": "pH"},
    "DoNothing": {"q50": "pH"},
    "SoilTemperature": {"depth_cm": "cm", "dates": "date", "c": "degC"},
    "Rescue": {"ph_expected": "pH", "lime_as_caco3_g_m2": "g/m2"},
    "RescueCourse": {
        "limit_low_ph": "pH",
        "limit_high_ph": "pH",
        "safe_on": "date",
        "safe_90_on": "date",
        "safe_untreated_on": "date",
        "look_to": "date",
    },
    "RescueStage": {"on": "date", "come_frac": "0-1", "untreated": "pH", "treated": "pH"},
    "Upkeep": {
        "drift_ph_year": "pH/year",
        "nitrogen_needed_g_m2_year": "g/m2/year",
        "net_with_feed_mmolc_m2_year": "mmolc/m2/year",
        "sulfur_as_s_g_m2_year": "g/m2/year",
        "lime_as_caco3_g_m2_year": "g/m2/year",
        "years_water_undoes_dose": "years",
        "drift_held_ph_year": "pH/year",
    },
    "FeedLine": {
        "n_g_m2_year": "g/m2/year",
        "rate_g_m2_year": "g/m2/year",
        "acid_mmolc_m2_year": "mmolc/m2/year",
    },
    "Subsoil": {"on": "date"},
    "SubsoilLayer": {
        "top_cm": "cm",
        "bottom_cm": "cm",
        "ph_water": "pH",
        "carbonate_pct": "%",
        "limit_ph": "pH",
    },
    "SubsoilDepth": {
        "top_cm": "cm",
        "bottom_cm": "cm",
        "ph_today": "pH",
        "ph_untreated": "pH",
        "ph_planned": "pH",
        "shows_from": "date",
    },
    "PotOrGround": {"years": "years", "pots": "count", "volume_l": "L", "mix_ph": "pH"},
    "PlantingWay": {
        "in_range": "0-1",
        "share": "0-1",
        "lasts_years": "years",
        "hours": "h",
        "cost": "currency",
    },
    "PlantingNeed": {"cost": "currency"},
    "Ledger": {"net": "mmolc/m2/year"},
    "LedgerLine": {"value": "mmolc/m2/year"},
    "ClaimResult": {
        "acid_brought_mmolc_m2": "mmolc/m2",
        "acid_needed_mmolc_m2": "mmolc/m2",
        "share": "0-1",
        "ph_change_now": "pH",
        "ph_change_1_year": "pH",
    },
}
"""Units by part of the answer and key; a key without one is not in it."""

KEPT_KEYS: Final = ("said", "case", "letter")
"""What stands behind the keys of the answer; a file from an older version may lack them."""

LATER_KEYS: dict[str, tuple[str, ...]] = {
    "Answer": ("plan", "branches", "worth", "subsoil", "pot_or_ground"),
    "Verdict": ("reason", "ph_now"),
    "Worth": ("samples",),
    "TestLine": ("ph_after",),
    "Rescue": ("course",),
    "Caution": ("short", "handling"),
}
"""Keys that every new answer has and that one kept by 0.1.0 lacks."""

_WORDS: Final = frozenset(
    (
        *("as its key", "count", "currency", "currency/kg", "currency/molc", "date", "days"),
        *("g/m2/year", "mmolc/m2/year", "pH/year", "times", "unit", "weeks", "years"),
    )
)
"""Units with a word in them, which have a message; the others are symbols."""


class AnswerKey(NamedTuple):
    """Unit and meaning of one key of the answer; no unit where it has none."""

    unit: Message | None
    meaning: Message


def answer_key(part: str, key: str) -> AnswerKey:
    """The unit and meaning of a key.

    Parameters
    ----------
    part
        Name of the class that has the key, such as ``PlanRule``.
    key
        Its name.

    Returns
    -------
    AnswerKey
        Both as messages.

    Examples
    --------
    >>> answer_key("PlanRule", "share_harmed").meaning.key
    'answer-means-plan-rule-share-harmed'
    """
    unit = ANSWER_UNITS.get(part, {}).get(key)
    dashed = re.sub(r"(?<=[a-z])(?=[A-Z])", "-", part).lower()
    meaning = message(f"answer-means-{dashed}-{choice(key)}")
    return AnswerKey(None if unit is None else _unit(unit), meaning)


def kept_meaning(key: str) -> Message:
    """What one of the keys behind the answer holds."""
    return message(f"answer-means-kept-{choice(key)}")


def _unit(unit: str) -> Message:
    if unit in _WORDS:
        return message("answer-unit", unit=choice(unit.replace("/", " ")))
    return message("verbatim", text=Given(unit))
