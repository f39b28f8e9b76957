"""Explanations of the plan as a rule, of open questions, and of what the readings taught."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from loamshift.services.explanation_entry import AnswerKey

PLAN_KEYS: Final[Mapping[str, AnswerKey]] = {
    "plan": AnswerKey(
        paragraphs=2,
        equations=2,
        figures=("plan.chosen_harmed_frac", "plan.most_harmed_frac"),
        see_also=("plan.decides", "plan.share_in_range", "plan.share_if_known", "applications"),
    ),
    "plan.parts": AnswerKey(
        paragraphs=1,
        see_also=("plan.decides", "applications"),
    ),
    "plan.decides": AnswerKey(
        paragraphs=3,
        figures=("plan.test_lines", "plan.test_again_gain_frac"),
        see_also=("plan.parts", "retest", "too_early_before"),
    ),
    "plan.share_in_range": AnswerKey(
        paragraphs=2,
        see_also=("plan.share_in_range_without_tests", "plan.share_if_known", "wanted"),
    ),
    "plan.share_in_range_without_tests": AnswerKey(
        paragraphs=1,
        see_also=("plan.share_in_range",),
    ),
    "plan.share_if_known": AnswerKey(
        paragraphs=1,
        figures=("plan.water_known_frac",),
        see_also=("plan.share_in_range", "verdict.reason"),
    ),
    "plan.share_harmed": AnswerKey(
        paragraphs=1,
        figures=("plan.most_harmed_frac",),
        see_also=("plan.share_in_range",),
    ),
    "plan.median_ph": AnswerKey(
        paragraphs=1,
        see_also=("forecast",),
    ),
    "plan.on": AnswerKey(
        paragraphs=1,
    ),
    "plan.acted_on": AnswerKey(
        paragraphs=1,
        figures=("plan.acted_frac", "plan.longest_look_years"),
        topics=("sulfur", "climate"),
        see_also=("plan.on", "options.weeks_to_half"),
    ),
    "branches": AnswerKey(
        paragraphs=1,
        see_also=("missing", "dose.acid_mmolc_kg"),
    ),
    "refit": AnswerKey(
        paragraphs=2,
        equations=1,
        see_also=("refit.acid_scale", "refit.effective_members", "forecast"),
    ),
    "refit.acid_scale": AnswerKey(
        paragraphs=1,
        figures=(
            "buffer_scale.log10_k_sd_between_sources",
            "buffer_scale.log10_k_sd_carbon_unknown",
        ),
        see_also=("dose.acid_mmolc_kg",),
    ),
    "refit.effective_members": AnswerKey(
        paragraphs=1,
        equations=1,
    ),
    "refit.doubted": AnswerKey(
        paragraphs=1,
        see_also=("findings",),
    ),
}
