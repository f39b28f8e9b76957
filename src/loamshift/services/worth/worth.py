"""What each further test of a bed is worth, from the beds and courses of its judgement."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

import numpy as np

from loamshift.core.information import Outcomes, decided_by_outcome
from loamshift.core.plan_rule import Rule
from loamshift.domain.answer import Missing, WidthShare
from loamshift.domain.bed_context import BedContext
from loamshift.domain.worth import FurtherTest, SamplesOfGround, Worth, WorthOfTest
from loamshift.services.belief.bed_run import Runner
from loamshift.services.verdict.judgement import Judgement
from loamshift.services.worth.candidates import Candidate, candidates
from loamshift.services.worth.pricing import AT_HOME, NO_PRICES, Prices, Pricing, pricing
from loamshift.services.worth.samples import (
    Reading,
    reading_of,
    samples_candidates,
    samples_of_ground,
)
from loamshift.services.worth.words import (
    best_words,
    how_to,
    none_words,
    waits_for_words,
    without_plan_words,
)
from loamshift.tables.parameters import parameter_values

OF_FIELD: Final = {
    "soil.ph": FurtherTest.LABORATORY_PH,
    "soil.ph_method": FurtherTest.LABORATORY_PH,
    "soil.fizz": FurtherTest.FIZZ,
    "soil.carbonate_pct": FurtherTest.CARBONATE,
    "soil.texture": FurtherTest.TEXTURE,
    "water.alkalinity": FurtherTest.WATER,
    "water.weekly": FurtherTest.WATER_AMOUNT,
    "titration": FurtherTest.JARS,
}
"""The test that fills a path which a verdict waits for."""


def worth_of_tests(
    context: BedContext,
    beds: Runner | None,
    judged: Judgement,
    *,
    prices: Prices = NO_PRICES,
    width: Sequence[WidthShare] = (),
) -> Worth:
    """What each further test is worth: beds brought into the range, and chance of another plan.

    Parameters
    ----------
    beds
        The possible beds that were judged; None where there are none.
    prices
        Prices of the reader's own beside those of the case [currency of the case].
    width
        What the width of the forecast comes from; empty without a forecast.

    Notes
    -----
    For each outcome of a test the possible beds are weighed anew and the plan is chosen again on
    the courses there are already (``core.information``); the gain is the share in range after
    that less the share without the test, both reckoned alike. A gain is never more than knowing
    everything would add. The test after the first application is in the plan already: its gain
    is what the plan would lose without tests.

    References
    ----------
    own-arithmetic
    """
    kind = context.case.bed.kind.value
    waits_for = OF_FIELD.get(judged.measure or "")
    reading = reading_of(context, width, judged)
    if judged.rule is None or judged.courses is None or beds is None:
        return Worth(
            best=waits_for,
            words=without_plan_words(judged, waits_for, kind=kind),
            samples=_samples(
                context, reading, gains=(), priced=pricing(context.case, prices, tests=())
            ),
        )
    rule = judged.rule
    most = max(rule.share_if_known - rule.share_in_range, 0.0)
    open_tests = candidates(context, beds)
    weighed_tests = [one.test for one in open_tests]
    if _tests_later(rule):
        weighed_tests.append(FurtherTest.LATER_READING)
    priced = pricing(context.case, prices, tests=weighed_tests)
    further = () if reading is None else tuple(samples_candidates(reading, beds))
    tried = (*open_tests, *further)
    weighed = decided_by_outcome(
        judged.courses.surface,
        rule.goal,
        [np.ones((judged.courses.surface.ph.shape[0], 1)), *(one.shares for one in tried)],
        chosen_on=judged.courses.chosen_on,
        first_g_m2=rule.first_g_m2,
        harm_price=rule.harm_price,
    )
    before = float(weighed[0].in_range.sum())
    gains = [min(max(float(found.in_range.sum()) - before, 0.0), most) for found in weighed[1:]]
    rows = [
        _row(
            one,
            gain=gain,
            changes=_chance_of_another(found, rule, judged, one),
            priced=priced,
        )
        for one, found, gain in zip(open_tests, weighed[1:], gains, strict=False)
    ]
    ordered = sorted(rows, key=lambda row: (-row.gain_per_cost, row.cost))
    best = _best(ordered, waits_for)
    found = Worth(
        best=None if best is None else best.test,
        words=none_words(
            max((row.gain for row in rows), default=0.0),
            tested=bool(rule.goal.tests),
            kind=kind,
        ),
        now=rule.share_in_range,
        most=most,
        tests=(*ordered, *_of_the_plan(judged, rule, priced)),
        samples=_samples(context, reading, gains=gains[len(open_tests) :], priced=priced),
    )
    if best is None:
        return found
    said = waits_for_words if waits_for else best_words
    return replace(found, words=said(best, kind=kind))


def most_telling_first(missing: tuple[Missing, ...], worth: Worth) -> tuple[Missing, ...]:
    """What nobody gave, that which the best test fills first."""
    fields = {row.field for row in worth.tests if row.test is worth.best}
    if worth.best is FurtherTest.BUFFER_PH:
        fields.add("titration")
    return tuple(sorted(missing, key=lambda row: row.field not in fields)) if fields else missing


def _best(rows: list[WorthOfTest], waits_for: FurtherTest | None) -> WorthOfTest | None:
    """The test that the verdict waits for, else the one that gains most for its cost."""
    if waits_for is not None:
        return next((row for row in rows if row.test is waits_for), None)
    least = parameter_values("plan")["test_again_gain_frac"]
    return next((row for row in rows if row.gain >= least), None)


def _chance_of_another(
    found: Outcomes, rule: Rule, judged: Judgement, candidate: Candidate
) -> float:
    """Chance that something else goes on first: by more than a further test has to gain.

    What settles the doubt that a verdict waits for changes it as often as the verdict says. A
    laboratory figure for free lime tells all that a fizz test does.
    """
    matters = found.better > rule.goal.worth_a_test_frac * found.probability
    chance = float(found.probability[matters].sum())
    settles = {candidate.field}
    if candidate.test is FurtherTest.CARBONATE:
        settles.add("soil.fizz")
    if judged.measure in settles:
        chance = max(chance, judged.measure_probability)
    return chance


def _tests_later(rule: Rule) -> bool:
    """Whether the plan counts on a later reading."""
    return bool(rule.goal.tests) and rule.first_g_m2 > 0.0


def _of_the_plan(judged: Judgement, rule: Rule, priced: Pricing) -> tuple[WorthOfTest, ...]:
    """The reading that the plan counts on already."""
    assert judged.courses is not None
    if not _tests_later(rule):
        return ()
    likeliest = max((line.probability for line in rule.lines), default=1.0)
    row = _row(
        Candidate(test=FurtherTest.LATER_READING, field="reading", shares=np.ones((1, 1))),
        gain=max(rule.share_in_range - rule.share_without_tests, 0.0),
        changes=1.0 - likeliest,
        priced=priced,
    )
    return (replace(row, on=judged.courses.seasons.tests[0], planned=True),)


def _samples(
    context: BedContext, reading: Reading | None, *, gains: Sequence[float], priced: Pricing
) -> SamplesOfGround | None:
    """How many samples the ground needs, where its reading makes much of the width."""
    if reading is None:
        return None
    return samples_of_ground(context, reading, gains=gains, price=priced.of(reading.test))


def _row(candidate: Candidate, *, gain: float, changes: float, priced: Pricing) -> WorthOfTest:
    test, values = candidate.test, parameter_values("measuring")
    price = priced.of(test)
    days = values["days_jars" if test is FurtherTest.JARS else "days_laboratory"]
    return WorthOfTest(
        test=test,
        field=candidate.field,
        gain=gain,
        changes=changes,
        cost=price.cost,
        currency=price.currency,
        days=0 if test in AT_HOME else round(days),
        gain_per_cost=gain / max(priced.compared(test), values["least_cost"]),
        how=how_to(test),
        source_key=price.source_key,
    )
