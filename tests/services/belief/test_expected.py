"""What a test was expected to read on its own day, and whether it did."""

from __future__ import annotations

from datetime import date
from statistics import NormalDist

import numpy as np
import pytest

from loamshift.core.member_weights import weigh_members
from loamshift.domain.ph import PhMethod, PhReading
from loamshift.services.belief.expected import ExpectedReading, latest_expected, weighted_quantiles
from loamshift.services.context.readings import SeasonReading
from services.beds import bed
from services.belief.test_belief import BEFORE, LOAM, believed, learned
from wording import read

DEGREES = 5.0
NODES = np.linspace(-3.6, 3.8, 7)
SULFUR = (
    '[[applied]]\ndate = 2025-04-20\nmaterial = "elemental sulfur, powder"\n'
    'rate = "60 g/m2"\nincorporated = "15 cm"\n'
)


def season(day: str, ph: float, *, error: float = 0.1) -> SeasonReading:
    on = date.fromisoformat(day)
    one = PhReading(ph=ph, method=PhMethod.WATER_1_1, taken=on)
    return SeasonReading(day=on, ph_water=ph, method_sd=error, readings=(one,))


def expected(*later: SeasonReading, per_node: tuple[float, ...]) -> ExpectedReading:
    """Beds of one draw each, whose pH moves with the scale by so much on each later day."""
    ph = np.stack([6.0 + step * NODES for step in per_node], axis=-1)[:, None, :]
    weights = weigh_members(
        NODES,
        ph,
        read_ph=[one.ph_water for one in later],
        read_sd_ph=[one.belief.ph_water_sd for one in later],
        degrees=DEGREES,
    )
    return latest_expected(weights, (season("2025-04-01", 6.5), *later), degrees=DEGREES)


def test_the_range_is_that_of_the_normal_distribution_before_the_reading_itself() -> None:
    """The scale is standard normal: 5 and 95 in 100 lie at the tabled 1.645 sd from the middle."""
    found = expected(season("2025-09-01", 7.9), per_node=(0.2,))
    z = NormalDist().inv_cdf(0.95)
    ends = (found.low, found.middle, found.high)
    assert ends == pytest.approx((6.0 - 0.2 * z, 6.0, 6.0 + 0.2 * z), abs=0.01)
    assert found.day == date(2025, 9, 1) and found.place == "above"


def test_a_worse_method_is_expected_in_a_wider_range() -> None:
    """Variances add: a normal course and a normal error."""
    rough = season("2025-09-01", 6.0, error=0.5)
    held = season("2025-04-01", 6.5).belief.ph_water_sd
    sd = np.sqrt(0.2**2 + rough.belief.ph_water_sd**2 - held**2)
    found = expected(rough, per_node=(0.2,))
    assert found.high - found.middle == pytest.approx(1.645 * sd, rel=0.05)


def test_what_was_read_before_moves_and_narrows_what_is_expected() -> None:
    first, second = season("2025-07-01", 6.4), season("2025-09-01", 6.3)
    fresh = expected(second, per_node=(0.3,))
    told = expected(first, second, per_node=(0.3, 0.3))
    assert told.middle > fresh.middle + 0.15
    assert told.high - told.low < fresh.high - fresh.low


def test_weighted_quantiles_are_those_of_repeated_values() -> None:
    """As numpy has them for values that stand there as often as their weight (``hazen``)."""
    values, times = np.array([3.0, 1.0, 2.0, 7.0]), np.array([40, 10, 30, 20])
    found = weighted_quantiles(np.repeat(values, times), np.ones(100), probabilities=(0.1, 0.6))
    known = np.quantile(np.repeat(values, times), (0.1, 0.6), method="hazen")
    assert found == pytest.approx(known)
    one = weighted_quantiles(values, times.astype(float), probabilities=(0.25, 0.6))
    assert one == pytest.approx([2.0, 3.0])


@pytest.mark.parametrize(
    ("ph", "place"), [(5.64, "below"), (5.66, "inside"), (6.04, "inside"), (6.3, "above")]
)
def test_a_test_is_inside_what_is_printed(ph: float, place: str) -> None:
    found = ExpectedReading(day=date(2026, 7, 1), read_ph=ph, low=5.7, middle=5.9, high=6.0)
    assert found.place == place
    assert read(found.words) == (
        f"The test of 1 July 2026, pH {ph:.1f}, is {place} the range expected for that "
        "day: of 100 such tests, 90 would have read between 5.7 and 6.0, with 5.9 as the best "
        "estimate."
    )


@pytest.mark.parametrize(
    ("before", "ph", "answered"),
    [
        (6.8, 6.5, "less"),
        (6.8, 5.0, "more"),
        (5.0, 6.4, "more"),
        (5.0, 5.2, "less"),
        (5.8, 7.2, "higher"),
        (5.8, 3.9, "lower"),
        (5.8, 6.4, "as-expected"),
        (6.8, 5.8, "as-expected"),
    ],
)
def test_how_a_bed_answered_goes_by_the_way_it_was_to_move(
    before: float, ph: float, answered: str
) -> None:
    """From before to the 5.7 expected; what two tests cannot show is no other answer."""
    found = ExpectedReading(
        day=date(2026, 7, 1), read_ph=ph, low=4.0, middle=5.7, high=7.0, before_ph=before
    )
    assert found.answered == answered


def course(*read_on: tuple[str, float]) -> str:
    """What is said of a loam that read 6.4 and got 60 g/m2 of sulfur a year ago."""
    more = SULFUR + "".join(BEFORE.format(day, ph, "water 1:1") for day, ph in read_on)
    soil = LOAM.replace("2026-04-01", "2025-04-01").format(6.4, "water 1:1")
    return read(learned(believed(bed(soil, more=more))).words)


def test_a_test_between_those_of_the_plan_is_read_on_its_own_day() -> None:
    """In early summer little of the sulfur has worked, by spring most of it has."""
    early, late = course(("2025-05-20", 6.3)), course(("2026-03-20", 6.3))
    assert "The test of 20 May 2025, pH 6.3, is inside" in early
    assert "The test of 20 March 2026, pH 6.3," in late
    best = [
        float(one.rpartition("with ")[2][:3])
        for one in (early[: early.index(" as the")], late[: late.index(" as the")])
    ]
    assert best[0] > best[1] + 0.2


def test_two_tests_of_one_summer_are_weighed_in_the_order_of_their_days() -> None:
    falling = course(("2025-07-01", 6.2), ("2025-10-15", 5.6))
    rising = course(("2025-07-01", 5.6), ("2025-10-15", 6.2))
    assert ", pH 5.6," in falling and ", pH 6.2," in rising
    assert falling.rpartition("with ")[2] != rising.rpartition("with ")[2]
