"""Explanations of the answer's own keys: a registry, printed by ``loamshift why``.

Every entry says what the number answers, the equation behind it, and the parameters that
weigh most in it. A key with a dot not listed here is explained by its longest listed
beginning.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from loamshift.services.explanation_entry import AnswerKey
from loamshift.services.explanations_plan import PLAN_KEYS

_DECISIONS: Final = (
    "stop: what lies there is more than the ground may carry, or takes the bed past the harmful "
    "limit of the plant; or pH, salt, sodium or standing water is harmful already.",
    "leave: left alone, the median bed stays nearer to the range than two tests can tell until a "
    "year after the day wanted, and more than half of the beds do; or what was put on earlier "
    "brings it there.",
    "measure-first: one unsettled fact changes the decision with more than the probability below, "
    "and a named test settles it; the plan is then provisional.",
    "elsewhere: the plants share no range, or fewer beds than the share below would reach the "
    "range within the limits of three seasons even if each were known: use a pot, a raised bed or "
    "another plant.",
    "effort: more parts than usual, more than 12 months, something every year, or a water that "
    "must be treated.",
    "go: otherwise.",
)

_REASONS: Final = (
    "no-ph: nobody has read the pH. no-aim: nothing says what should grow.",
    "overdose: what lies there is more than the ground may carry. too-acid, salt, sodic, "
    "waterlogged: the bed is in harm already.",
    "no-common-range: the plants have no pH in common that is wide enough to hold.",
    "in-range: left alone, the bed stays in the range. at-work: what was applied earlier brings "
    "it there. small-gain: it is nearer to the range than a second test could show. upkeep: it "
    "is in the range and needs something from time to time to stay there.",
    "unknown-lime, doubtful-reading, unknown-water, unknown-texture: one test would settle the "
    "decision. unknown-sodium: so high a pH is sodium's more often than lime's. one-source-range: "
    "only one source prints a range for the plant.",
    "free-lime: lime in the soil takes up more than anybody would apply. caps: the printed "
    "limits do not reach so far. water: the water brings back whatever is done to the soil.",
    "parts: more applications than usual. months: longer than a year. within-reach: none of these.",
)

ANSWER_KEYS: Final[Mapping[str, AnswerKey]] = {
    "answer": AnswerKey(
        title="Version of the answer's form",
        text=("The meaning of every key stays the same within one version.",),
    ),
    "name": AnswerKey(title="Name of the bed", text=("As the case file gives it.",)),
    "today": AnswerKey(
        title="The date the answer is for",
        text=(
            "Nothing is asked of the clock inside: the same case and the same date give the same "
            "answer.",
        ),
    ),
    "made_by": AnswerKey(
        title="What made the answer",
        text=(
            "Version of the program and of the model, and a fingerprint of all shipped tables. "
            "seed, members and years belong to the forecast and are empty without one.",
        ),
    ),
    "verdict.decision": AnswerKey(
        title="The decision",
        text=(
            "The first of these that holds, in this order:",
            *_DECISIONS,
            "It comes from the same possible beds as the plan, the forecast and the upkeep, so "
            "that none of them can say the opposite.",
        ),
        figures=(
            *("verdict.leave_gain_ph", "verdict.measure_first_probability"),
            *("verdict.elsewhere_probability", "verdict.seasons", "verdict.effort_parts"),
            *("verdict.effort_days", "verdict.effort_pull_ph_year", "verdict.harmful_ph"),
            *("verdict.overdose_margin_ph", "verdict.overdose_cap_years"),
            *("plan.least_common_range_ph", "plan.water_known_frac"),
        ),
        see_also=(
            *("verdict.reason", "verdict.because", "verdict.would_change_if"),
            *("plan", "dose.acid_mmolc_kg"),
        ),
    ),
    "verdict.reason": AnswerKey(
        title="Why the decision is what it is",
        text=(
            "One code. Every sentence about the decision is made from it and its numbers.",
            *_REASONS,
            "An answer kept by version 0.1.0 has none.",
        ),
        see_also=("verdict.decision", "verdict.because"),
    ),
    "verdict.ph_now": AnswerKey(
        title="Where the bed stands today",
        text=(
            "The middle of its possible beds: every reading weighed by its error, and what was "
            "applied, watered, fed and washed out since. Without a pH, and where a fact decides "
            "before the beds are looked at, there is none.",
        ),
        see_also=("verdict.decision", "refit"),
    ),
    "verdict.because": AnswerKey(
        title="The number that decided",
        text=("One sentence with the figure, its limit, and whose limit it is.",),
        see_also=("findings", "verdict.decision"),
    ),
    "verdict.would_change_if": AnswerKey(
        title="What would change the decision",
        text=(
            "The nearest change of one doubtful or missing figure that turns the decision, and "
            "the cheapest test that would show it.",
        ),
        see_also=("missing",),
    ),
    "findings": AnswerKey(
        title="Findings",
        text=(
            "Every check as a row: the value, the limit it is held against, whether it passed, "
            "and what that means. A finding never stops an answer; a fault does.",
        ),
        see_also=("verdict.decision",),
    ),
    "missing": AnswerKey(
        title="What nobody said and matters",
        text=(
            "A field is listed where its plausible range moves the answer. What was taken "
            "instead is a range, not a guess, and widens the dose.",
        ),
    ),
    "wanted": AnswerKey(
        title="The range wanted",
        text=(
            "What the printed ranges of the plants have in common, in pH in water, or a narrow "
            "range around the target pH. ph_aim is the target pH, or else the middle.",
        ),
        figures=("verdict.target_half_width_ph", "plan.least_common_range_ph"),
        see_also=("dose.direction", "plan", "forecast"),
    ),
    "dose.direction": AnswerKey(
        title="Which way the dose goes",
        text=("acidify, lime or none: the wanted range lies below, above or around the reading.",),
    ),
    "dose.provisional": AnswerKey(
        title="A provisional dose",
        text=("True where the verdict is to measure first: the dose may change with that test.",),
        see_also=("verdict.decision",),
    ),
    "dose.acid_mmolc_kg": AnswerKey(
        title="Acid per kilogram of soil",
        text=(
            "How much acid moves the soil from the pH it has to the pH wanted; negative where it "
            "must be limed. The curve is the soil's own base content; one scale k says how far "
            "this bed departs from the average, and measurements narrow it. Free carbonate comes "
            "on top: none of it may be left before the pH of the soil itself moves.",
            "lo90 to hi90 holds nine in ten: the spread of k, of the reading and of the carbonate.",
        ),
        equations=(
            "acid = k [Q(pH now) − Q(pH wanted)] + carbonate",
            "carbonate = 200 mmolc/kg × % CaCO3",
            "log10 k ~ N(mean, sd); sd 0.24 by feel, 0.20 with clay and organic matter measured",
        ),
        figures=(
            "buffer.organic_slope_mmolc_kg_ph_per_pct",
            "buffer.clay_slope_mmolc_kg_ph_per_pct",
            "buffer.mineral_intercept_mmolc_kg_ph",
            "buffer.log10_k_sd_texture_by_feel",
            "buffer.log10_k_sd_laboratory",
            "buffer.log10_k_sd_cec",
            "buffer.log10_k_sd_buffer_ph",
            "buffer.log10_k_sd_own_records",
        ),
        topics=("buffer", "carbonate"),
        see_also=("dose.sulfur_as_s_g_m2", "dose.lime_as_caco3_g_m2", "dose.carbonate_share"),
    ),
    "dose.sulfur_as_s_g_m2": AnswerKey(
        title="Elemental sulfur per area",
        text=(
            "The acid above, spread over the soil that is treated, as pure sulfur fully turned "
            "to acid. A product of less than 100 % S needs more of it.",
        ),
        equations=(
            "S [g/m²] = acid [mmolc/kg] × soil [kg/m²] × 32.06 / 2000",
            "soil [kg/m²] = 10 × depth [cm] × bulk density [g/cm³]",
        ),
        figures=("acidity.sulfur_acid_mol_mol",),
        topics=("buffer",),
        see_also=("dose.acid_mmolc_kg", "applications"),
    ),
    "dose.lime_as_caco3_g_m2": AnswerKey(
        title="Lime per area",
        text=(
            "The acid to take up, as pure calcium carbonate. A limestone of neutralising value "
            "below 100 %, or too coarse to react in time, needs more of it.",
        ),
        equations=(
            "CaCO3 [g/m²] = −acid [mmolc/kg] × soil [kg/m²] × 100.09 / 2000",
            "product = CaCO3 / (neutralising value × share fine enough to react)",
        ),
        figures=(
            "acidity.caco3_base_mol_mol",
            "lime.field_efficiency",
        ),
        topics=("buffer",),
        see_also=("dose.acid_mmolc_kg", "options"),
    ),
    "dose.carbonate_share": AnswerKey(
        title="Share of the acid that free lime takes",
        text=(
            "What part of the middle dose only dissolves free carbonate. Near 1 the bed is on "
            "the plateau of calcite and carbon dioxide, and most of the sulfur buys nothing.",
        ),
        equations=("share = carbonate / (curve + carbonate)",),
        figures=(
            "carbonate.p_co2_suspension_atm",
            "carbonate.p_co2_root_zone_atm",
        ),
        topics=("carbonate",),
        see_also=("dose.acid_mmolc_kg",),
    ),
    "dose.published_g_m2": AnswerKey(
        title="What printed tables say for the same step",
        text=(
            "The lowest and highest rate of the published tables that have a row for this "
            "texture and pH step, scaled to the same depth; copies of one origin count once. "
            "They are shown beside our dose, never mixed into it. advise --table follows one.",
        ),
        see_also=("dose.sulfur_as_s_g_m2",),
    ),
    "dose.by_forecast": AnswerKey(
        title="The amount by the forecast, in answers kept by 0.1.0",
        text=(
            "New answers have the key plan instead, and null here.",
            "It was the least amount that had the median of the possible beds at the aim on the "
            "day wanted. It was cut back so that fewer than one bed in ten passed the far end of "
            "the range, and to what the printed limits allow.",
        ),
        see_also=("plan", "dose.sulfur_as_s_g_m2", "applications", "forecast"),
    ),
    "applications": AnswerKey(
        title="The dated parts",
        text=(
            "The first path through the plan, in parts that each stay under the limit for a "
            "planted or bare bed, dated so that the soil is warm enough to turn the sulfur before "
            "the next. A later part goes on only if its condition holds: usually a new reading "
            "that still asks for it.",
            "Applications of one season stand the waiting time apart; seasons follow each other "
            "by a year, each after a test.",
            "A product on hand is used unless it is so slow that by the day wanted less than the "
            "stated share of what acts of the usual product has acted of it.",
        ),
        equations=("applications of a season = amount / limit per dose, rounded up",),
        figures=(
            "verdict.part_wait_days",
            "verdict.lime_part_wait_days",
            "plan.slow_product_frac",
            "sulfur.rate_ug_cm2_d",
            "sulfur.activation_energy_kj_mol",
            "sulfur.lowest_temp_c",
            "sulfur.roughness",
            "sulfur.lag_d",
            "sulfur.break_up_frac",
            "climate.diffusivity_m2_s",
        ),
        topics=("sulfur", "climate"),
        see_also=("plan", "too_early_before", "retest"),
    ),
    "options": AnswerKey(
        title="Other ways to the same pH",
        text=(
            "Every suitable material brought to the same acid or lime, with price, speed and "
            "side effects. Cost is compared per unit of what works, not per bag.",
        ),
        see_also=("options.cost_per_mol_acid", "options.weeks_to_half", "options.ec_rise_ds_m"),
    ),
    "options.cost_per_mol_acid": AnswerKey(
        title="Cost of a mole of acid",
        text=("Price of the pack over the acid in it once all has reacted.",),
        equations=("cost = price / (pack [kg] × acid [mol/kg])",),
    ),
    "options.cost_per_kg_caco3_eq": AnswerKey(
        title="Cost of a kilogram of lime value",
        text=("Price of the pack over its neutralising value in calcium carbonate.",),
        equations=("cost = price / (pack [kg] × neutralising value [0-1])",),
    ),
    "options.weeks_to_half": AnswerKey(
        title="Weeks until half has reacted",
        text=(
            "For sulfur the shrinking-particle law over its sizes in the soil temperatures of "
            "the place; for aluminium and iron salts days; for lime by fineness.",
        ),
        figures=(
            "sulfur.rate_ug_cm2_d",
            "sulfur.activation_energy_kj_mol",
            "sulfur.lowest_temp_c",
            "sulfur.roughness",
            "sulfur.lag_d",
            "sulfur.break_up_frac",
            "lime.half_time_d",
            "nitrogen.nitrification_rate_per_d",
            "nitrogen.nitrification_q10",
        ),
        topics=("sulfur", "climate"),
        see_also=("too_early_before",),
    ),
    "options.ec_rise_ds_m": AnswerKey(
        title="Rise of soluble salts",
        text=(
            "The salt the product leaves in the water of the treated depth before rain takes it "
            "away, as conductivity of the saturation extract.",
        ),
        figures=(
            "salinity.mmolc_l_per_ds_m",
            "salinity.saturation_per_field_capacity",
        ),
        topics=("salinity",),
    ),
    "too_early_before": AnswerKey(
        title="Too early to judge before",
        text=(
            "The day by which the first part has moved the median bed by the stated share of what "
            "it does until the next, and by more than the error of a reading where it ever moves "
            "so far. A reading before it shows the sulfur still lying there and invites a second "
            "dose on top of the first.",
            "Sulfur-oxidising microbes work at less than half the pace for every ten degrees "
            "colder, and all but rest in winter soil.",
        ),
        equations=(
            "radius shrinks at a rate r(T, moisture); mass left = Σ share (1 − r t / r0)³",
            "rate follows Arrhenius in soil temperature",
        ),
        figures=(
            "advice.early_share",
            "sulfur.rate_ug_cm2_d",
            "sulfur.activation_energy_kj_mol",
            "sulfur.lowest_temp_c",
            "sulfur.roughness",
            "sulfur.lag_d",
            "sulfur.break_up_frac",
            "climate.diffusivity_m2_s",
        ),
        topics=("sulfur", "climate"),
        see_also=("applications", "retest"),
    ),
    "retest": AnswerKey(
        title="Days to test again",
        text=(
            "After the date before which it is too early, in the same season, depth and method "
            "as the first reading, so that the scatter of the year does not pass for a change.",
        ),
        see_also=("too_early_before",),
    ),
    "forecast": AnswerKey(
        title="The course of the pH",
        text=(
            "Median and bands of the pH as the sampling depth reads, beside the run without "
            "any treatment. Empty where no forecast was run.",
            "width lists what the width comes from after a year, with each cause's share of the "
            "variance between the possible beds.",
        ),
    ),
    "soil_temperature": AnswerKey(
        title="Soil temperature over the year",
        text=(
            "The yearly wave of the air, damped and delayed down to the middle of the treated "
            "depth, shifted by the user's own thermometer where there is one; an average year, "
            "not the weather of this one. Empty without a place.",
        ),
        equations=("D = √(2 α / ω)",),
        topics=("climate",),
        see_also=("too_early_before", "forecast"),
        source_keys=("hillel-1982",),
    ),
    "rescue": AnswerKey(
        title="Too much went on",
        text=(
            "What to do in order, and what not to do, where earlier material has made or will "
            "make the bed harmful; with the pH to expect.",
        ),
        see_also=("verdict.decision",),
    ),
    "upkeep": AnswerKey(
        title="Holding the pH",
        text=(
            "The yearly ledger left to itself, and the feed within the nitrogen the plants need "
            "that keeps it nearest to balance; sulfur or lime closes the rest.",
        ),
        equations=(
            "least |net acid| over the feeds, with total N at what the plants need and each "
            "feed at nought or more: a small linear program",
        ),
        figures=(
            "ledger.background_unknown_mmolc_m2",
            "ledger.background_unfed_mmolc_m2",
            "ledger.background_lawn_mmolc_m2",
            "ledger.background_rise_per_ph",
            "ledger.weathering_mmolc_m2",
            "ledger.deposition_mmolc_m2",
            "ledger.realised_field_frac",
            "ledger.acid_per_nh4_mol_mol",
            "ledger.acid_per_urea_n_mol_mol",
            "ledger.harvest_alkalinity_mmolc_g",
        ),
        topics=("ledger",),
        see_also=("ledger", "upkeep.drift_ph_year", "upkeep.years_water_undoes_dose"),
    ),
    "upkeep.drift_ph_year": AnswerKey(
        title="Drift of the pH in a year",
        text=("The net of the ledger over the buffering of the treated soil at its pH.",),
        equations=("drift = −net [mmolc/m²/yr] / (buffering [mmolc/kg/pH] × soil [kg/m²])",),
        figures=(
            "buffer.organic_slope_mmolc_kg_ph_per_pct",
            "buffer.clay_slope_mmolc_kg_ph_per_pct",
            "buffer.mineral_intercept_mmolc_kg_ph",
        ),
        topics=("buffer", "ledger"),
    ),
    "upkeep.years_water_undoes_dose": AnswerKey(
        title="Years until the water has undone the dose",
        text=("The acid of the dose over what the water's alkalinity takes up in a year.",),
        equations=("years = dose [mmolc/m²] / (alkalinity [mmolc/L] × water [mm/yr])",),
    ),
    "ledger": AnswerKey(
        title="The yearly acid ledger",
        text=(
            "What pushes the pH each year, acid positive: water, rain, feed, sulfur still to "
            "react, leaching and uptake, harvest. All lines share one unit, so that they add up.",
        ),
        equations=(
            "net = Σ lines [mmolc/m²/yr]",
            "water = −alkalinity [mmolc/L] × depth [mm/yr]",
        ),
        figures=(
            "ledger.background_unknown_mmolc_m2",
            "ledger.background_unfed_mmolc_m2",
            "ledger.background_lawn_mmolc_m2",
            "ledger.background_rise_per_ph",
            "ledger.weathering_mmolc_m2",
            "ledger.deposition_mmolc_m2",
            "ledger.realised_field_frac",
            "ledger.acid_per_nh4_mol_mol",
            "ledger.acid_per_urea_n_mol_mol",
            "ledger.harvest_alkalinity_mmolc_g",
        ),
        topics=("ledger",),
        see_also=("upkeep",),
    ),
    "claims": AnswerKey(
        title="A claim settled",
        text=(
            "The acid the material brings, beside the acid this bed needs, on one scale. Acid "
            "that microbes destroy again counts at once and not after a year; base that decay "
            "sets free counts after a year.",
        ),
        equations=("share = acid brought / acid needed",),
        figures=(
            "acidity.sulfur_acid_mol_mol",
            "acidity.ammonium_acid_mol_mol",
            "acidity.urea_acid_mol_mol",
            "acidity.nitrate_acid_mol_mol",
            "acidity.aluminium_acid_mol_mol",
            "acidity.iron_acid_mol_mol",
            "acidity.caco3_base_mol_mol",
        ),
        topics=("acidity",),
        see_also=("dose.acid_mmolc_kg",),
    ),
    "cautions": AnswerKey(
        title="Cautions",
        text=("By code, with the source of every figure in them; loamshift why CODE opens one.",),
    ),
    "sources": AnswerKey(
        title="Sources",
        text=("Every source that a figure of this answer rests on.",),
    ),
    "balance_error": AnswerKey(
        title="Does the acid add up?",
        text=(
            "What the forecast's own acid balance fails to close: stores at the end less "
            "stores at the start, less all that came and went. Empty without a forecast.",
        ),
    ),
    **PLAN_KEYS,
}
