"""What every key of the answer means, and its unit; the document and the schema print it."""

from __future__ import annotations

from typing import NamedTuple


class AnswerKey(NamedTuple):
    """Unit and meaning of one key of the answer."""

    unit: str
    text: str


def _band(what: str) -> dict[str, AnswerKey]:
    return {
        "lo90": AnswerKey("as the key it stands under", f"Lower end: one in twenty {what} less."),
        "mid": AnswerKey("as the key it stands under", "The median."),
        "hi90": AnswerKey("as the key it stands under", f"Upper end: one in twenty {what} more."),
    }


ANSWER_KEYS: dict[str, dict[str, AnswerKey]] = {
    "Answer": {
        "answer": AnswerKey("", "Version of the answer's form, 1."),
        "name": AnswerKey("", "Name of the bed, from the case."),
        "today": AnswerKey("date", "The date the advice is for."),
        "made_by": AnswerKey("", "What made the answer."),
        "verdict": AnswerKey("", "The decision and the number behind it."),
        "findings": AnswerKey("", "Every check, passed or not."),
        "missing": AnswerKey("", "What nobody gave and what matters most to know."),
        "wanted": AnswerKey("", "The range the bed should come to, or null."),
        "dose": AnswerKey("", "How much acid or lime the curve and the free lime ask for."),
        "plan": AnswerKey("", "The plan as a rule: what goes on, and what the test decides."),
        "branches": AnswerKey("", "The advice for each outcome of an open question."),
        "applications": AnswerKey("", "The first path through the plan, date by date."),
        "options": AnswerKey("", "Other ways to bring the same acid or lime, cheapest first."),
        "too_early_before": AnswerKey("date", "A test before this day says nothing yet."),
        "retest": AnswerKey("date", "Days to test again."),
        "forecast": AnswerKey("", "The course of the pH; null where no forecast was run."),
        "soil_temperature": AnswerKey(
            "", "Soil temperature of an average year from today, or null without a place."
        ),
        "refit": AnswerKey("", "What the readings taught about this bed, or null."),
        "rescue": AnswerKey("", "What to do about a bed that has had too much, or null."),
        "upkeep": AnswerKey("", "How to hold the pH, or null."),
        "ledger": AnswerKey("", "The yearly acid ledger, or null."),
        "claims": AnswerKey("", "Each proposal of the case, settled."),
        "cautions": AnswerKey("", "What to take care of."),
        "sources": AnswerKey("", "Every source used."),
        "balance_error": AnswerKey("mmolc/m2", "What the forecast's acid balance fails to close."),
    },
    "MadeBy": {
        "version": AnswerKey("", "Version of loamshift."),
        "model": AnswerKey("", "Version of the model."),
        "tables": AnswerKey("", "Fingerprint of the shipped tables."),
        "seed": AnswerKey("", "Seed of the ensemble, or null."),
        "members": AnswerKey("count", "Members of the ensemble, or null."),
        "years": AnswerKey("years", "Length of the forecast, or null."),
    },
    "Verdict": {
        "decision": AnswerKey("", "What is advised."),
        "because": AnswerKey("", "The sentence with the number that decided."),
        "would_change_if": AnswerKey("", "The cheapest test or fact that could change it."),
        "reason": AnswerKey("", "The code every sentence about the decision is made from."),
        "ph_now": AnswerKey(
            "pH", "Where the bed stands today by all that was read and has gone on since, in water."
        ),
    },
    "Finding": {
        "check": AnswerKey("", "What was checked."),
        "value": AnswerKey("unit", "What was found."),
        "operator": AnswerKey("", "How it is compared with the limit."),
        "limit": AnswerKey("unit", "What it is compared with."),
        "unit": AnswerKey("", "Unit of value and limit."),
        "passed": AnswerKey("", "Whether the check is passed."),
        "severity": AnswerKey("", "How grave it is."),
        "comment": AnswerKey("", "The finding in a sentence."),
        "source_key": AnswerKey("", "Where the limit comes from, or null."),
    },
    "Missing": {
        "field": AnswerKey("", "Path of the case file, such as soil.fizz."),
        "why": AnswerKey("", "What it would decide."),
        "how": AnswerKey("", "How to get it."),
    },
    "Wanted": {
        "ph_low": AnswerKey("pH", "Lower end, in water."),
        "ph_high": AnswerKey("pH", "Upper end, in water."),
        "ph_aim": AnswerKey("pH", "The point aimed at, in water."),
        "names": AnswerKey("", "Plants whose printed ranges it is; none for a target pH."),
    },
    "Dose": {
        "direction": AnswerKey("", "Which way the pH is moved."),
        "provisional": AnswerKey("", "Whether a named test should come first."),
        "acid_mmolc_kg": AnswerKey("mmolc/kg", "Acid per soil; positive acidifies."),
        "sulfur_as_s_g_m2": AnswerKey("g/m2", "The same as elemental sulfur, or null."),
        "lime_as_caco3_g_m2": AnswerKey("g/m2", "The same as calcium carbonate, or null."),
        "carbonate_share": AnswerKey("0-1", "Share of the acid that free lime takes up, or null."),
        "published_g_m2": AnswerKey("g/m2", "What printed tables say for the same step, or null."),
        "by_forecast": AnswerKey("", "Of answers before `plan`; null in a new one."),
    },
    "DoseByForecast": {
        "sulfur_as_s_g_m2": AnswerKey("g/m2", "Elemental sulfur, or null."),
        "lime_as_caco3_g_m2": AnswerKey("g/m2", "Lime that works, as calcium carbonate, or null."),
        "by": AnswerKey("date", "The day by which the median should be at the aim."),
        "limited_by": AnswerKey("", "What keeps it below what the aim would take."),
        "share_in_range": AnswerKey("0-1", "Share of possible beds in the range on that day."),
        "share_past_limit": AnswerKey(
            "0-1", "Share of possible beds that pass the far end of the range at any time."
        ),
        "median_ph_by": AnswerKey("pH", "The median of the bed on that day, in water."),
        "median_in_range_on": AnswerKey(
            "date", "First day the median is in the range, or null where it never is."
        ),
        "because": AnswerKey("", "Why it is more or less than by the curve alone, in sentences."),
    },
    "Band": _band("is"),
    "PublishedSpread": {
        "n_sources": AnswerKey("count", "Independent printed tables."),
        "low": AnswerKey("g/m2", "The least of them."),
        "high": AnswerKey("g/m2", "The most of them."),
    },
    "Application": {
        "date": AnswerKey("date", "Day to put it on."),
        "material": AnswerKey("", "What, and in which form."),
        "rate_g_m2": AnswerKey("g/m2", "Product per area."),
        "amount_g": AnswerKey("g", "Product for one bed, or null where the area is not known."),
        "incorporate_cm": AnswerKey("cm", "How deep to work it in; 0 is the surface."),
        "only_if": AnswerKey("", "What a test must show first, or null."),
    },
    "PlanRule": {
        "material": AnswerKey("", "What, and in which form."),
        "parts": AnswerKey("", "What goes on whatever a test reads."),
        "decides": AnswerKey("", "What the next test decides, a line for each range of readings."),
        "share_in_range": AnswerKey(
            "0-1",
            "Share of beds in the range on `on` and a year later, with the tests of this plan.",
        ),
        "share_in_range_without_tests": AnswerKey(
            "0-1", "The same with the best single amount and no test."
        ),
        "share_if_known": AnswerKey("0-1", "The same if the soil were known exactly."),
        "share_harmed": AnswerKey(
            "0-1", "Share of beds that the plan takes past the harmful limit of the plant."
        ),
        "median_ph": AnswerKey("pH", "The median of the beds on `on`, in water."),
        "on": AnswerKey("date", "The day the shares are for."),
        "acted_on": AnswerKey(
            "date", "Day by which nine tenths of prills have acted, or null for other products."
        ),
    },
    "PlanPart": {
        "date": AnswerKey("date", "Day to put it on."),
        "material": AnswerKey("", "What, and in which form."),
        "rate_g_m2": AnswerKey("g/m2", "Product per area."),
        "amount_g": AnswerKey("g", "Product for one bed, or null where the area is not known."),
    },
    "TestLine": {
        "test": AnswerKey("date", "Day of the test."),
        "reads_from": AnswerKey(
            "pH", "The lowest reading of this line, in water to a tenth; null for no lower end."
        ),
        "reads_to": AnswerKey("pH", "The highest reading of this line; null for no upper end."),
        "part_g_m2": AnswerKey("g/m2", "Product that goes on then; 0 for nothing."),
        "then": AnswerKey("", "What such a reading calls for."),
        "part_on": AnswerKey("date", "Day it goes on, or null for nothing."),
        "ph_after": AnswerKey(
            "pH",
            "Median course of the simulated beds that read so, one value a week from the last "
            "date of the forecast not after the test, to the plan's `on`; null without a forecast.",
        ),
    },
    "Branch": {
        "field": AnswerKey("", "Path of the case file that would settle it, such as soil.fizz."),
        "outcome": AnswerKey(
            "", "What the test would show: no-lime, some-lime, more-lime or much-lime."
        ),
        "probability": AnswerKey("0-1", "Probability of this outcome."),
        "decision": AnswerKey("", "What would be advised then."),
        "sulfur_as_s_g_m2": AnswerKey("g/m2", "Sulfur it would take in the median case, or null."),
        "lime_as_caco3_g_m2": AnswerKey(
            "g/m2", "Lime it would take in the median case, as calcium carbonate, or null."
        ),
    },
    "Refit": {
        "used": AnswerKey("", "False where the readings were set aside on request."),
        "readings": AnswerKey("count", "Readings that were weighed."),
        "acid_scale": AnswerKey("", "How strongly the soil resists, before the readings and now."),
        "effective_members": AnswerKey(
            "count", "How many possible beds carry the weight; few mean a thin answer."
        ),
        "doubted": AnswerKey("", "Readings that fit no possible bed, in sentences."),
        "words": AnswerKey("", "What was learnt, in a sentence."),
    },
    "AcidScale": {
        "prior": AnswerKey(
            "times", "Resistance by texture and organic matter alone; 1 is the usual curve."
        ),
        "now": AnswerKey("times", "The same after the readings."),
    },
    "Option": {
        "material": AnswerKey("", "What, and in which form."),
        "rate_g_m2": AnswerKey("g/m2", "Product per area."),
        "amount_g": AnswerKey("g", "Product for one bed, or null."),
        "cost": AnswerKey("currency", "Price of that amount, or null."),
        "currency": AnswerKey("", "Three letters, or null."),
        "cost_per_mol_acid": AnswerKey("currency/molc", "Price of one mole of acid, or null."),
        "cost_per_kg_caco3_eq": AnswerKey(
            "currency/kg", "Price of the lime worth of 1 kg CaCO3, or null."
        ),
        "weeks_to_half": AnswerKey("weeks", "Until half of it has acted, or null."),
        "ec_rise_ds_m": AnswerKey("dS/m", "Salt it adds to a saturated paste, or null."),
        "cautions": AnswerKey("", "Codes of its cautions."),
    },
    "Forecast": {
        "dates": AnswerKey("date", "Weekly dates."),
        "ph": AnswerKey("pH", "pH in water as the sampling depth reads."),
        "do_nothing": AnswerKey("pH", "The same with nothing done."),
        "width": AnswerKey("", "What the width comes from, the largest share first."),
    },
    "WidthShare": {
        "cause": AnswerKey("", "What nobody knows exactly."),
        "share": AnswerKey("0-1", "Its share of the variance."),
    },
    "ForecastPh": {
        "q05": AnswerKey("pH", "One in twenty lies below."),
        "q25": AnswerKey("pH", "One in four lies below."),
        "q50": AnswerKey("pH", "The median."),
        "q75": AnswerKey("pH", "One in four lies above."),
        "q95": AnswerKey("pH", "One in twenty lies above."),
    },
    "DoNothing": {"q50": AnswerKey("pH", "The median with nothing done.")},
    "SoilTemperature": {
        "depth_cm": AnswerKey("cm", "Depth it holds at, the middle of the treated depth."),
        "dates": AnswerKey("date", "Weekly dates, one year."),
        "c": AnswerKey("degC", "Soil temperature."),
    },
    "Rescue": {
        "problem": AnswerKey("", "What is wrong."),
        "ph_expected": AnswerKey("pH", "Where the pH goes by itself, or null."),
        "steps": AnswerKey("", "What to do, in order."),
        "never": AnswerKey("", "What not to do."),
        "lime_as_caco3_g_m2": AnswerKey("g/m2", "Lime that would undo it, or null."),
    },
    "Upkeep": {
        "drift_ph_year": AnswerKey("pH/year", "How the pH moves by itself; negative falls."),
        "nitrogen_needed_g_m2_year": AnswerKey("g/m2/year", "Nitrogen the plants need, or null."),
        "feed": AnswerKey("", "The feed that keeps the ledger even."),
        "net_with_feed_mmolc_m2_year": AnswerKey(
            "mmolc/m2/year", "The ledger with that feed; positive acidifies."
        ),
        "sulfur_as_s_g_m2_year": AnswerKey("g/m2/year", "Sulfur that closes the rest."),
        "lime_as_caco3_g_m2_year": AnswerKey("g/m2/year", "Lime that closes the rest."),
        "years_water_undoes_dose": AnswerKey(
            "years", "Until the water has undone the dose, or null."
        ),
        "comment": AnswerKey("", "The upkeep in a sentence."),
    },
    "FeedLine": {
        "material": AnswerKey("", "What."),
        "n_g_m2_year": AnswerKey("g/m2/year", "Nitrogen it brings."),
        "rate_g_m2_year": AnswerKey("g/m2/year", "Product."),
        "acid_mmolc_m2_year": AnswerKey("mmolc/m2/year", "Acid it brings; negative for base."),
    },
    "Ledger": {
        "unit": AnswerKey("", "Always mmolc_m2_year."),
        "lines": AnswerKey("", "One line for each thing that pushes the pH."),
        "net": AnswerKey("mmolc/m2/year", "Their sum; positive acidifies."),
    },
    "LedgerLine": {
        "name": AnswerKey("", "What pushes."),
        "value": AnswerKey("mmolc/m2/year", "How hard; positive acidifies."),
    },
    "ClaimResult": {
        "material": AnswerKey("", "What was proposed."),
        "acid_brought_mmolc_m2": AnswerKey("mmolc/m2", "Acid it brings in the long run."),
        "acid_needed_mmolc_m2": AnswerKey("mmolc/m2", "Acid the aim needs."),
        "share": AnswerKey("0-1", "Brought over needed, or null where none is needed."),
        "ph_change_now": AnswerKey("pH", "What it does within days, or null."),
        "ph_change_1_year": AnswerKey("pH", "What it has done after a year, or null."),
        "comment": AnswerKey("", "The answer in a sentence."),
    },
    "Caution": {
        "code": AnswerKey("", "Code of the caution."),
        "text": AnswerKey("", "The caution in words."),
        "source_key": AnswerKey("", "Where its figures come from, or null."),
        "short": AnswerKey("", "What must be done, in a sentence or two."),
        "handling": AnswerKey(
            "", "Whether it is a hazard of something that this advice has you handle."
        ),
    },
    "SourceLine": {
        "key": AnswerKey("", "Key that the answer uses."),
        "citation": AnswerKey("", "The source itself."),
    },
}

KEPT_KEYS: dict[str, AnswerKey] = {
    "said": AnswerKey(
        "",
        "The messages behind the texts, each under the JSON pointer of its text "
        "(`/verdict/because`): its key, and its figures in our own units by their kind. A reader "
        "in other units or another language is served from here, never from a text.",
    ),
    "case": AnswerKey(
        "",
        "What was asked: the keys of the case file that have a value, in our own units; `noticed` "
        "lists what the reader of the file remarked on, `climate` says where climate figures of "
        "one's own came from. Null where it was not kept.",
    ),
    "letter": AnswerKey(
        "",
        "The letter as it was said, with the reader's spelling and units; `loamshift reprint` "
        "prints it again. Null where it was not kept.",
    ),
}
"""What stands behind the keys of the answer; a file from an older version may lack them."""

LATER_KEYS: dict[str, tuple[str, ...]] = {
    "Answer": ("plan", "branches"),
    "Verdict": ("reason", "ph_now"),
    "TestLine": ("ph_after",),
    "Caution": ("short", "handling"),
}
"""Keys that every new answer has and that one kept by 0.1.0 lacks."""
