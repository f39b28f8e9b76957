"""How many samples a ground needs: the error that is left, what more bring, and who is told."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from datetime import date

import numpy as np
import pytest

from loamshift.domain.answer import Decision, WidthShare
from loamshift.domain.case import Bed, BedKind, Case
from loamshift.domain.message import message
from loamshift.domain.ph import PhMethod, PhReading
from loamshift.domain.worth import FurtherTest, SamplesOfGround, Worth
from loamshift.report.letter import letter_from_answer
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.services.advise import advise
from loamshift.services.context.build_context import build_context
from loamshift.services.verdict.decide import Decided, decide
from loamshift.services.worth.candidates import core_sees
from loamshift.services.worth.samples import Reading
from loamshift.services.worth.worth import worth_of_tests

METRIC = Words("uk", "metric")
WIDE = (WidthShare(message("cause-first-reading"), 0.4),)


def worth_of(case: Case, width: tuple[WidthShare, ...] = WIDE) -> tuple[Decided, Worth]:
    decided = decide(build_context(case))
    return decided, worth_of_tests(decided.context, decided.beds, decided.judged, width=width)


def samples_of(case: Case) -> SamplesOfGround:
    found = worth_of(case)[1].samples
    assert found is not None
    return found


@pytest.mark.parametrize("samples", [1, 2, 5])
@pytest.mark.parametrize("read", [1, 3])
def test_the_error_left_is_that_of_a_mean_under_one_common_error(samples: int, read: int) -> None:
    """By linear algebra: the mean of readings that share the scatter of their year."""
    scatter, own = 0.15, 0.4
    sd = math.hypot(scatter, own / math.sqrt(read))
    count = read + samples
    covariance = np.full((count, count), scatter**2) + np.eye(count) * own**2
    weights = np.linalg.solve(covariance, np.ones(count))
    best = math.sqrt(1.0 / weights.sum())
    left = Reading(sd_ph=sd, read=read, rough=False).sd_after_ph(samples)
    assert left == pytest.approx(best, rel=1e-9)


@pytest.mark.parametrize("samples", [1, 3])
@pytest.mark.parametrize("read", [1, 2])
def test_what_more_samples_show_is_the_condition_of_a_normal(samples: int, read: int) -> None:
    """Second mean less the first is e' - e; given the whole error u + e, by its covariances."""
    scatter, own = 0.15, 0.3
    first = own**2 / read
    share, error = core_sees(
        math.hypot(scatter, math.sqrt(first)), rough=False, read=read, samples=samples
    )
    total, difference = scatter**2 + first, first + own**2 / samples
    assert share == pytest.approx(first / total)
    assert error**2 == pytest.approx(difference - first**2 / total)


def test_more_samples_narrow_but_never_below_the_scatter_of_the_year(
    bed_case: Callable[..., Case],
) -> None:
    for method in (PhMethod.WATER_1_1, PhMethod.CACL2, PhMethod.PROBE):
        case = bed_case(7.2, target=6.0)
        case = replace(case, soil=replace(case.soil, ph=PhReading(ph=7.0, method=method)))
        errors = [line.error_ph for line in samples_of(case).lines]
        assert errors == sorted(errors, reverse=True)
        assert errors[-1] > 1.96 * 0.15 * 0.95
        assert len(set(errors)) == len(errors) == 4


def test_one_more_sample_gains_what_the_table_of_tests_says(bed_case: Callable[..., Case]) -> None:
    probed = bed_case(7.2, target=6.0)
    probed = replace(probed, soil=replace(probed.soil, ph=PhReading(ph=7.2, method=PhMethod.PROBE)))
    for case, test in (
        (bed_case(7.2, target=6.0), FurtherTest.CORE),
        (probed, FurtherTest.LABORATORY_PH),
    ):
        _, worth = worth_of(case)
        assert worth.samples is not None and worth.samples.test is test
        row = next(row for row in worth.tests if row.test is test)
        line = worth.samples.lines[1]
        assert (line.gain, line.cost, line.currency) == (row.gain, row.cost, row.currency)


def test_the_tests_are_worth_the_same_with_and_without_samples(
    bed_case: Callable[..., Case],
) -> None:
    case = bed_case(7.2, target=6.0)
    assert worth_of(case, ())[1] == replace(worth_of(case)[1], samples=None)


@pytest.mark.parametrize(
    ("kind", "told"), [("ground", True), ("lawn", True), ("field", True), ("container", False)]
)
def test_grounds_are_told_and_pots_are_not(
    bed_case: Callable[..., Case], kind: str, told: bool
) -> None:
    case = bed_case(5.2, target=6.2, bed=Bed(kind=BedKind(kind), area_m2=20.0, depth_cm=15.0))
    _, worth = worth_of(case)
    assert (worth.samples is not None) is told


def test_nothing_is_told_where_another_cause_weighs_more(bed_case: Callable[..., Case]) -> None:
    case = bed_case(7.2, target=6.0)
    other = (
        WidthShare(message("cause-buffering"), 0.6),
        WidthShare(message("cause-first-reading"), 0.2),
    )
    assert worth_of(case, other)[1].samples is None
    limy = bed_case(8.0, target=5.0, carbonate_pct=12.0)
    decided, worth = worth_of(limy)
    assert decided.judged.decision is Decision.ELSEWHERE
    assert worth.samples is None


def test_a_soil_that_can_stay_is_told_its_error_without_a_gain(
    bed_case: Callable[..., Case],
) -> None:
    decided, worth = worth_of(bed_case(6.0, target=6.0))
    assert decided.judged.decision is Decision.LEAVE
    assert worth.samples is not None
    assert [line.gain for line in worth.samples.lines] == [None] * 4


def test_readings_that_differ_call_for_more_cores_and_for_parts(
    bed_case: Callable[..., Case],
) -> None:
    """15 to 20 cores of one mixed sample of a field in North Carolina's figure."""
    others = tuple(
        PhReading(ph=ph, method=PhMethod.WATER_1_1, taken=date(2026, 3, day))
        for ph, day in ((5.0, 2), (6.2, 3), (5.5, 4))
    )
    even = samples_of(bed_case(5.5, target=6.5))
    uneven = samples_of(bed_case(5.5, target=6.5, readings=others))
    assert even.cores <= 12 < 15 <= uneven.cores <= 20
    assert "parts that look alike" in say(uneven.words, METRIC)  # type: ignore[arg-type]
    assert "is enough" not in say(uneven.words, METRIC)  # type: ignore[arg-type]


@pytest.mark.parametrize(("gain", "shown"), [(0.03, True), (0.004, False), (None, False)])
def test_the_letter_says_it_and_has_the_table_where_it_gains(
    bed_case: Callable[..., Case], gain: float | None, shown: bool
) -> None:
    case = bed_case(7.2, target=6.0)
    found = worth_of(case)[1]
    assert found.samples is not None
    lines = tuple(replace(line, gain=gain) for line in found.samples.lines)
    found = replace(found, samples=replace(found.samples, lines=lines))
    assert found.samples is not None
    answer = replace(advise(case), worth=found)
    letter = letter_from_answer(answer, case, words=METRIC)
    working = " ".join(str(section) for section in letter.sections)
    assert say(found.samples.words, METRIC) in working  # type: ignore[arg-type]
    assert ("What further samples bring" in working) is shown
    assert working.count("laboratories at universities") == 1
    plain = letter_from_answer(
        replace(answer, worth=replace(found, samples=None)), case, words=METRIC
    )
    assert "What further samples bring" not in " ".join(str(part) for part in plain.sections)
