"""Explanations of the plan as a rule, of open questions, and of what the readings taught."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from loamshift.services.explanation_entry import AnswerKey

PLAN_KEYS: Final[Mapping[str, AnswerKey]] = {
    "plan": AnswerKey(
        title="The plan as a rule",
        text=(
            "What goes on first, the day of the next test, and what that test decides. It is "
            "chosen among tidy amounts for the most possible beds in the range on the day wanted "
            "and a year later, with few harmed by it.",
            "A rule with a test keeps more beds in the range than any single amount, because soils "
            "that look alike differ by a factor of two and more. After the test the bed is fitted "
            "again and the next table is printed.",
        ),
        equations=(
            "share = Σ w [pH(on) and pH(on + 1 year) in the range], over beds m with weight w",
            "best rule = greatest share with harmed ≤ limit, decided by bins of the reading",
        ),
        figures=("plan.chosen_harmed_frac", "plan.most_harmed_frac"),
        see_also=("plan.decides", "plan.share_in_range", "plan.share_if_known", "applications"),
    ),
    "plan.parts": AnswerKey(
        title="What goes on whatever a test reads",
        text=("The first application, or more where one season allows several.",),
        see_also=("plan.decides", "applications"),
    ),
    "plan.decides": AnswerKey(
        title="What the test decides",
        text=(
            "A line for each range of readings, in water and to a tenth: an amount, nothing yet "
            "with another test a year on, or nothing more.",
            "The amounts follow from where such beds go after the test, not from how far the "
            "reading is from the aim: what was applied first may still be working.",
            "test-again stands where waiting for a second test keeps more beds in the range than "
            "any amount now.",
        ),
        figures=("plan.test_lines", "plan.test_again_gain_frac"),
        see_also=("plan.parts", "retest", "too_early_before"),
    ),
    "plan.share_in_range": AnswerKey(
        title="How often the plan works",
        text=(
            "Of the beds that fit what is known of this one, the share in the range on the day "
            "wanted and a year later, with the tests of this plan. It is judged on beds not used "
            "to choose the plan, because a plan looks too good on its own.",
            "It counts the bed itself: a test may read outside while the bed is inside.",
        ),
        see_also=("plan.share_in_range_without_tests", "plan.share_if_known", "wanted"),
    ),
    "plan.share_in_range_without_tests": AnswerKey(
        title="The same without a test",
        text=("The share for the best single amount, under the same limit on harm.",),
        see_also=("plan.share_in_range",),
    ),
    "plan.share_if_known": AnswerKey(
        title="The same if the soil were known exactly",
        text=(
            "The bound that no plan passes. Where even this is small the soil is not the "
            "question: the water brings back whatever is done.",
        ),
        figures=("plan.water_known_frac",),
        see_also=("plan.share_in_range", "verdict.reason"),
    ),
    "plan.share_harmed": AnswerKey(
        title="How often the plan harms",
        text=(
            "The share of beds that pass the harmful limit of the plant because of the plan: "
            "with it they do and left alone they would not.",
        ),
        figures=("plan.most_harmed_frac",),
        see_also=("plan.share_in_range",),
    ),
    "plan.median_ph": AnswerKey(
        title="The best estimate of the pH",
        text=("The median of the possible beds on the day the shares are for, in water.",),
        see_also=("forecast",),
    ),
    "plan.on": AnswerKey(
        title="The day the shares are for",
        text=("The day wanted in the case, or else three years from the first application.",),
    ),
    "branches": AnswerKey(
        title="The advice for each outcome of an open question",
        text=(
            "Where nobody knows whether the soil holds lime, one middle figure would fit neither "
            "case. Each outcome has its chance, its decision and its amount.",
        ),
        see_also=("missing", "dose.acid_mmolc_kg"),
    ),
    "refit": AnswerKey(
        title="The bed learnt from its own readings",
        text=(
            "Possible beds are run from the first reading through all that was applied, and "
            "weighed by how well they meet the later readings. The weights then hold for the "
            "decision, the plan and the forecast.",
            "--no-refit shows the answer without; used is then false.",
        ),
        equations=(
            "log w = Σ log t5((reading − pH) / √(method² + year²)), over the later readings",
        ),
        see_also=("refit.acid_scale", "refit.effective_members", "forecast"),
    ),
    "refit.acid_scale": AnswerKey(
        title="How strongly the soil resists",
        text=(
            "How many times the acid of the usual curve for this texture the soil takes: before "
            "the readings and after them. Where lime was not tested, lime may be the cause.",
        ),
        figures=("buffer.log10_k_sd_texture_by_feel", "buffer.log10_k_sd_laboratory"),
        see_also=("dose.acid_mmolc_kg",),
    ),
    "refit.effective_members": AnswerKey(
        title="How many possible beds carry the weight",
        text=(
            "Few mean that the readings lie where hardly any bed was expected. Then more beds "
            "are drawn there; if that does not help, the readings are doubted.",
        ),
        equations=("n = 1 / Σ w²",),
    ),
    "refit.doubted": AnswerKey(
        title="Readings that fit no bed",
        text=("A reading that no possible bed can meet is doubted before the soil is.",),
        see_also=("findings",),
    ),
}
