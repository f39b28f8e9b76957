"""What further tests are worth: which are weighed, which comes first, and that all agree."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np
import pytest

from loamshift.case.answer import answer_to_dict
from loamshift.domain.answer import Answer, Decision
from loamshift.domain.case import Case, SoilEntry
from loamshift.domain.ph import PhMethod, PhReading
from loamshift.domain.soil import Fizz, FizzAcid
from loamshift.domain.worth import FurtherTest, Worth, WorthOfTest
from loamshift.report.letter import letter_from_answer
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.services.advise import advise
from loamshift.services.worth.candidates import carbonate_shares, core_sees, fizz_shares
from loamshift.tables.parameters import load_parameters
from loamshift.tables.soils import load_textures
from services.beds import bed

METRIC = Words("uk", "metric")


def with_soil(bed_case: Callable[..., Case], **soil: object) -> Case:
    """An open bed to be acidified: nobody looked for lime or tested the buffering."""
    plain = SoilEntry(
        ph=PhReading(ph=7.2, method=PhMethod.WATER_1_1),
        texture=load_textures()["loam"],
        organic_matter_pct=3.0,
    )
    return bed_case(target=6.0, soil=replace(plain, **soil))  # type: ignore[arg-type]


def worth_of(answer: Answer) -> Worth:
    assert answer.worth is not None
    return answer.worth


def line(answer: Answer, test: FurtherTest) -> WorthOfTest:
    return next(row for row in worth_of(answer).tests if row.test is test)


def named(answer: Answer) -> set[FurtherTest]:
    return {row.test for row in worth_of(answer).tests}


def test_what_was_done_is_not_asked_again(bed_case: Callable[..., Case]) -> None:
    before = advise(with_soil(bed_case))
    assert {FurtherTest.FIZZ, FurtherTest.CARBONATE, FurtherTest.JARS} <= named(before)
    fizzed = advise(with_soil(bed_case, fizz=Fizz.NONE, fizz_acid=FizzAcid.HCL))
    assert FurtherTest.FIZZ not in named(fizzed)
    measured = advise(with_soil(bed_case, carbonate_pct=0.0))
    assert not {FurtherTest.FIZZ, FurtherTest.CARBONATE} & named(measured)


def test_a_laboratory_ph_is_worth_more_than_a_second_probe(bed_case: Callable[..., Case]) -> None:
    probed = PhReading(ph=7.2, method=PhMethod.PROBE)
    answer = advise(with_soil(bed_case, ph=probed, carbonate_pct=0.0))
    assert line(answer, FurtherTest.LABORATORY_PH).gain >= line(answer, FurtherTest.CORE).gain


@pytest.mark.parametrize("ph", [5.0, 6.4, 7.2, 7.9])
def test_gains_lie_between_nothing_and_knowing_everything(
    bed_case: Callable[..., Case], ph: float
) -> None:
    answer = advise(with_soil(bed_case, ph=PhReading(ph=ph, method=PhMethod.WATER_1_1)))
    found = worth_of(answer)
    if answer.plan is None:
        assert found.tests == ()
        return
    assert found.now == answer.plan.share_in_range
    assert found.most == pytest.approx(answer.plan.share_if_known - answer.plan.share_in_range)
    for row in found.tests:
        assert 0.0 <= row.changes <= 1.0
        assert 0.0 <= row.gain <= 1.0
        assert row.planned or row.gain <= found.most


def test_the_first_is_the_one_with_most_gain_for_its_price(bed_case: Callable[..., Case]) -> None:
    answer = advise(with_soil(bed_case))
    found = worth_of(answer)
    rows = [row for row in found.tests if not row.planned]
    assert [row.gain_per_cost for row in rows] == sorted(
        (row.gain_per_cost for row in rows), reverse=True
    )
    if answer.verdict.decision is not Decision.MEASURE_FIRST and found.best is not None:
        assert found.best is next(row.test for row in rows if row.gain >= 0.03)


def test_own_prices_count(bed_case: Callable[..., Case]) -> None:
    case = with_soil(bed_case, carbonate_pct=0.0)
    dear = advise(case, prices={FurtherTest.JARS: 500.0})
    free = advise(case, prices={FurtherTest.JARS: 0.0})
    assert line(dear, FurtherTest.JARS).cost == 500.0
    assert line(dear, FurtherTest.JARS).currency is None
    assert line(free, FurtherTest.JARS).gain_per_cost > line(dear, FurtherTest.JARS).gain_per_cost
    assert line(free, FurtherTest.JARS).gain == line(dear, FurtherTest.JARS).gain


def test_listed_prices_are_those_of_their_sources(bed_case: Callable[..., Case]) -> None:
    """Clemson: pH only USD 3.00; Kentucky: soil with buffer pH USD 6, water with alkalinity 15;
    Georgia: postage USD 4.00. Read on their pages of prices.
    """
    rows = load_parameters()["measuring"]
    assert rows["cost_laboratory_ph"].value == 3.0
    assert rows["cost_buffer_ph"].value == 6.0
    assert rows["cost_water"].value == 15.0
    assert rows["postage"].value == 4.0
    answer = advise(with_soil(bed_case, ph=PhReading(ph=5.0, method=PhMethod.WATER_1_1)))
    assert line(answer, FurtherTest.BUFFER_PH).cost == 10.0
    assert line(answer, FurtherTest.BUFFER_PH).source_key == "kentucky-soil-fees"


def test_the_same_case_gives_the_same_figures(bed_case: Callable[..., Case]) -> None:
    assert worth_of(advise(with_soil(bed_case))) == worth_of(advise(with_soil(bed_case)))


@pytest.mark.parametrize("ph", [5.0, 6.4, 7.2])
def test_front_sheet_working_and_answer_say_one_thing(
    bed_case: Callable[..., Case], ph: float
) -> None:
    case = with_soil(bed_case, ph=PhReading(ph=ph, method=PhMethod.WATER_1_1), carbonate_pct=0.0)
    answer = advise(case)
    found = worth_of(answer)
    letter = letter_from_answer(answer, case, words=METRIC)
    front = " ".join(str(section) for section in letter.front)
    said = say(found.words, METRIC)  # type: ignore[arg-type]
    waits = answer.verdict.decision is Decision.MEASURE_FIRST
    assert (said in front) is (found.best is not None and bool(found.tests) and not waits)
    if found.tests:
        assert any(said in str(section) for section in letter.sections)


def test_what_the_verdict_waits_for_is_the_first_test(bed_case: Callable[..., Case]) -> None:
    probed = PhReading(ph=7.2, method=PhMethod.UNKNOWN)
    answer = advise(with_soil(bed_case, ph=probed))
    if answer.verdict.decision is Decision.MEASURE_FIRST:
        best = worth_of(answer).best
        fields = {row.field for row in worth_of(answer).tests if row.test is best}
        assert not fields or answer.missing[0].field in fields


def test_a_laboratory_tells_what_a_fizz_does() -> None:
    found = worth_of(advise(bed("ph = 7.6\nph_method = 'water 1:1'\ntexture = 'sandy loam'")))
    chance = {row.test: row.changes for row in found.tests}
    assert found.best is FurtherTest.FIZZ
    assert chance[FurtherTest.CARBONATE] >= chance[FurtherTest.FIZZ] > 0.3


def test_without_a_plan_the_reason_is_said(bed_case: Callable[..., Case]) -> None:
    for case in (bed_case(ph=None), bed_case(ph=6.0, target=6.0), bed_case(ph=3.0, target=6.0)):
        found = worth_of(advise(case))
        if not found.tests:
            assert say(found.words, METRIC)  # type: ignore[arg-type]
    assert worth_of(advise(bed_case(ph=None))).words.key == "worth-no-soil"  # type: ignore[union-attr]


def test_the_answer_carries_it(bed_case: Callable[..., Case]) -> None:
    case = with_soil(bed_case, carbonate_pct=0.0)
    plain = answer_to_dict(advise(case), case=case)["worth"]
    assert {"best", "words", "now", "most", "tests", "samples"} == set(plain)
    assert plain["tests"][0]["how"]


def test_a_fizz_tells_the_classes_apart() -> None:
    """FAO guidelines: none below 0.5 %, slight to 2, moderate to 10, strong to 25 (memory)."""
    shares = fizz_shares(np.array([0.0, 0.1, 1.0, 5.0, 16.0, 50.0]))
    assert shares.argmax(axis=1).tolist() == [0, 0, 1, 2, 3, 4]
    assert shares.sum(axis=1) == pytest.approx(np.ones(6))
    assert shares[0, 0] == pytest.approx(1.0)


def test_a_laboratory_tells_lime_apart_better_than_a_fizz() -> None:
    lime = np.geomspace(0.6, 1.9, 200)
    laboratory, fizz = carbonate_shares(lime), fizz_shares(lime)

    def told(shares: np.ndarray) -> float:
        mean = shares.mean(axis=0)
        return float((shares * np.log(np.maximum(shares, 1e-12) / mean)).sum(axis=1).mean())

    assert told(laboratory) > told(fizz)


def test_one_more_sample_cannot_see_the_scatter_of_the_year() -> None:
    """All of the error shared: nothing is seen; the more of it is its own, the more is."""
    scatter = 0.15
    seen = [core_sees(sd, rough=False)[0] for sd in (scatter, 0.18, 0.25, 0.6)]
    assert seen == sorted(seen)
    assert seen[0] < 0.1 < 0.9 < seen[-1]
    assert core_sees(0.6, rough=True)[0] < core_sees(0.6, rough=False)[0]
