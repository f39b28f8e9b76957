"""Explanations of the answer's own keys: a registry, printed by ``loamshift why``.

Every entry names the parameters that weigh most in its number, and what to read next; what it
says stands in the messages ``explained-...``. A key with a dot not listed here is explained by
its longest listed beginning.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from loamshift.services.explanation_entry import AnswerKey
from loamshift.services.explanations_plan import PLAN_KEYS

ANSWER_KEYS: Final[Mapping[str, AnswerKey]] = {
    "answer": AnswerKey(
        paragraphs=1,
    ),
    "name": AnswerKey(
        paragraphs=1,
    ),
    "today": AnswerKey(
        paragraphs=1,
    ),
    "made_by": AnswerKey(
        paragraphs=1,
    ),
    "verdict.decision": AnswerKey(
        paragraphs=8,
        figures=(
            "verdict.leave_gain_ph",
            "verdict.measure_first_probability",
            "verdict.elsewhere_probability",
            "verdict.seasons",
            "verdict.effort_parts",
            "verdict.effort_days",
            "verdict.effort_pull_ph_year",
            "verdict.harmful_ph",
            "verdict.overdose_margin_ph",
            "verdict.overdose_cap_years",
            "plan.least_common_range_ph",
            "plan.water_known_frac",
        ),
        see_also=(
            "verdict.reason",
            "verdict.because",
            "verdict.would_change_if",
            "plan",
            "dose.acid_mmolc_kg",
        ),
    ),
    "verdict.reason": AnswerKey(
        paragraphs=9,
        see_also=("verdict.decision", "verdict.because"),
    ),
    "verdict.ph_now": AnswerKey(
        paragraphs=1,
        see_also=("verdict.decision", "refit"),
    ),
    "verdict.because": AnswerKey(
        paragraphs=1,
        see_also=("findings", "verdict.decision"),
    ),
    "verdict.would_change_if": AnswerKey(
        paragraphs=1,
        see_also=("missing",),
    ),
    "findings": AnswerKey(
        paragraphs=1,
        see_also=("verdict.decision",),
    ),
    "missing": AnswerKey(
        paragraphs=1,
    ),
    "worth": AnswerKey(
        paragraphs=4,
        equations=1,
        figures=(
            "measuring.cost_fizz",
            "measuring.cost_buffer_ph",
            "measuring.cost_carbonate",
            "measuring.fizz_log_error",
            "plan.test_again_gain_frac",
            "sampling.core_sd_even",
            "sampling.told_from_share",
        ),
        topics=("measuring", "sampling"),
        see_also=("missing", "plan.share_in_range", "plan.share_if_known"),
    ),
    "wanted": AnswerKey(
        paragraphs=1,
        figures=("verdict.target_half_width_ph", "plan.least_common_range_ph"),
        see_also=("dose.direction", "plan", "forecast"),
    ),
    "dose.direction": AnswerKey(
        paragraphs=1,
    ),
    "dose.provisional": AnswerKey(
        paragraphs=1,
        see_also=("verdict.decision",),
    ),
    "dose.acid_mmolc_kg": AnswerKey(
        paragraphs=2,
        equations=3,
        figures=(
            "buffer.organic_slope_mmolc_kg_ph_per_pct",
            "buffer.clay_slope_mmolc_kg_ph_per_pct",
            "buffer.mineral_intercept_mmolc_kg_ph",
            "buffer_scale.log10_k_sd_between_sources",
            "buffer_scale.log10_k_sd_weak_soil",
            "buffer_scale.log10_k_sd_between_soils",
            "buffer_scale.log10_k_sd_carbon_unknown",
            "buffer_scale.log10_k_sd_texture_felt",
            "buffer.log10_k_sd_buffer_ph",
            "buffer.log10_k_sd_own_records",
        ),
        topics=("buffer", "buffer_scale", "carbonate"),
        see_also=("dose.sulfur_as_s_g_m2", "dose.lime_as_caco3_g_m2", "dose.carbonate_share"),
    ),
    "dose.sulfur_as_s_g_m2": AnswerKey(
        paragraphs=1,
        equations=2,
        figures=("acidity.sulfur_acid_mol_mol",),
        topics=("buffer",),
        see_also=("dose.acid_mmolc_kg", "applications"),
    ),
    "dose.lime_as_caco3_g_m2": AnswerKey(
        paragraphs=1,
        equations=2,
        figures=("acidity.caco3_base_mol_mol", "lime.field_efficiency"),
        topics=("buffer",),
        see_also=("dose.acid_mmolc_kg", "options"),
    ),
    "dose.carbonate_share": AnswerKey(
        paragraphs=1,
        equations=1,
        figures=("carbonate.p_co2_suspension_atm", "carbonate.p_co2_root_zone_atm"),
        topics=("carbonate",),
        see_also=("dose.acid_mmolc_kg",),
    ),
    "dose.published_g_m2": AnswerKey(
        paragraphs=1,
        see_also=("dose.sulfur_as_s_g_m2",),
    ),
    "dose.by_forecast": AnswerKey(
        paragraphs=2,
        see_also=("plan", "dose.sulfur_as_s_g_m2", "applications", "forecast"),
    ),
    "applications": AnswerKey(
        paragraphs=3,
        equations=1,
        figures=(
            "verdict.part_wait_days",
            "verdict.lime_part_wait_days",
            "plan.slow_product_frac",
            "sulfur.rate_ug_cm2_d",
            "sulfur.activation_energy_kj_mol",
            "sulfur.crowding_exponent",
            "sulfur.growth_per_d",
            "sulfur.grown_first_frac",
            "sulfur.grown_again_frac",
            "sulfur.ramp_from_c",
            "climate.diffusivity_m2_s",
        ),
        topics=("sulfur", "climate"),
        see_also=("plan", "too_early_before", "retest"),
    ),
    "options": AnswerKey(
        paragraphs=1,
        see_also=("options.cost_per_mol_acid", "options.weeks_to_half", "options.ec_rise_ds_m"),
    ),
    "options.cost_per_mol_acid": AnswerKey(
        paragraphs=1,
        equations=1,
    ),
    "options.cost_per_kg_caco3_eq": AnswerKey(
        paragraphs=1,
        equations=1,
    ),
    "options.weeks_to_half": AnswerKey(
        paragraphs=1,
        figures=(
            "sulfur.rate_ug_cm2_d",
            "sulfur.activation_energy_kj_mol",
            "sulfur.crowding_exponent",
            "sulfur.growth_per_d",
            "sulfur.grown_first_frac",
            "sulfur.grown_again_frac",
            "sulfur.ramp_from_c",
            "lime.half_time_d",
            "nitrogen.nitrification_rate_per_d",
            "nitrogen.nitrification_q10",
        ),
        topics=("sulfur", "climate"),
        see_also=("too_early_before",),
    ),
    "options.ec_rise_ds_m": AnswerKey(
        paragraphs=1,
        figures=("salinity.mmolc_l_per_ds_m", "salinity.saturation_per_field_capacity"),
        topics=("salinity",),
    ),
    "too_early_before": AnswerKey(
        paragraphs=2,
        equations=2,
        figures=(
            "advice.early_share",
            "sulfur.rate_ug_cm2_d",
            "sulfur.activation_energy_kj_mol",
            "sulfur.crowding_exponent",
            "sulfur.growth_per_d",
            "sulfur.grown_first_frac",
            "sulfur.grown_again_frac",
            "sulfur.ramp_from_c",
            "climate.diffusivity_m2_s",
        ),
        topics=("sulfur", "climate"),
        see_also=("applications", "retest"),
    ),
    "retest": AnswerKey(
        paragraphs=1,
        see_also=("too_early_before",),
    ),
    "forecast": AnswerKey(
        paragraphs=2,
    ),
    "soil_temperature": AnswerKey(
        paragraphs=1,
        equations=1,
        topics=("climate",),
        see_also=("too_early_before", "forecast"),
        source_keys=("hillel-1982",),
    ),
    "subsoil": AnswerKey(
        paragraphs=2,
        figures=("salinity.al_toxic_ph_cacl2",),
        see_also=("forecast", "applications"),
    ),
    "pot_or_ground": AnswerKey(
        paragraphs=3,
        figures=(
            "pot.repot_years",
            "pot.repot_share",
            "pot.watering_share",
            "pot.waterings_week",
            "pot.mix_ph_sd",
        ),
        topics=("pot",),
        see_also=("forecast", "plan", "upkeep"),
    ),
    "rescue": AnswerKey(
        paragraphs=2,
        see_also=("verdict.decision", "plan"),
    ),
    "upkeep": AnswerKey(
        paragraphs=1,
        equations=1,
        figures=(
            "ledger.background_unknown_mmolc_m2",
            "ledger.background_unfed_mmolc_m2",
            "ledger.background_garden_mmolc_m2",
            "ledger.background_low_crop_mmolc_m2",
            "ledger.background_lawn_mmolc_m2",
            "ledger.background_rise_per_ph",
            "ledger.weathering_mmolc_m2",
            "ledger.air_in_unknown_mmolc_m2",
            "ledger.air_in_garden_mmolc_m2",
            "ledger.air_in_low_crop_mmolc_m2",
            "ledger.realised_field_frac",
            "ledger.unreturned_bed_frac",
            "ledger.acid_per_nh4_mol_mol",
            "ledger.acid_per_urea_n_mol_mol",
            "ledger.harvest_alkalinity_mmolc_g",
        ),
        topics=("ledger",),
        see_also=("ledger", "upkeep.drift_ph_year", "upkeep.years_water_undoes_dose"),
    ),
    "upkeep.drift_ph_year": AnswerKey(
        paragraphs=1,
        equations=1,
        figures=(
            "buffer.organic_slope_mmolc_kg_ph_per_pct",
            "buffer.clay_slope_mmolc_kg_ph_per_pct",
            "buffer.mineral_intercept_mmolc_kg_ph",
        ),
        topics=("buffer", "ledger"),
    ),
    "upkeep.drift_held_ph_year": AnswerKey(
        paragraphs=1,
        topics=("buffer", "ledger"),
        see_also=("upkeep.drift_ph_year", "plan"),
    ),
    "upkeep.years_water_undoes_dose": AnswerKey(
        paragraphs=1,
        equations=1,
    ),
    "ledger": AnswerKey(
        paragraphs=1,
        equations=2,
        figures=(
            "ledger.background_unknown_mmolc_m2",
            "ledger.background_unfed_mmolc_m2",
            "ledger.background_garden_mmolc_m2",
            "ledger.background_low_crop_mmolc_m2",
            "ledger.background_lawn_mmolc_m2",
            "ledger.background_rise_per_ph",
            "ledger.weathering_mmolc_m2",
            "ledger.air_in_unknown_mmolc_m2",
            "ledger.air_in_garden_mmolc_m2",
            "ledger.air_in_low_crop_mmolc_m2",
            "ledger.realised_field_frac",
            "ledger.unreturned_bed_frac",
            "ledger.acid_per_nh4_mol_mol",
            "ledger.acid_per_urea_n_mol_mol",
            "ledger.harvest_alkalinity_mmolc_g",
            "humus.labile_turf_frac",
            "humus.labile_rate_per_year",
            "humus.slow_rate_bare_per_year",
            "ledger.unreturned_bare_frac",
            "column.organic_zero_ph",
        ),
        topics=("ledger", "humus"),
        see_also=("upkeep",),
    ),
    "claims": AnswerKey(
        paragraphs=1,
        equations=1,
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
        paragraphs=1,
    ),
    "sources": AnswerKey(
        paragraphs=1,
    ),
    "balance_error": AnswerKey(
        paragraphs=1,
    ),
    **PLAN_KEYS,
}
