from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest

from loamshift.core.dose_surface import MOST_WORTH, DoseSurface, dose_surface
from loamshift.errors import InputError

KNOTS = np.array([0.0, 40.0, 90.0, 160.0, 250.0])
NEEDS = np.array([60.0, 100.0, 150.0, 240.0])
"""Amount that moves each bed by one pH [g/m2]."""
DAYS = 8
REFERENCE = 90.0
DONE = np.clip(np.arange(DAYS) / 3.0, 0.0, 1.0)
"""Share of a first-season amount that has acted by each day [0-1]."""
DONE_LATER = np.clip((np.arange(DAYS) - 3.0) / 3.0, 0.0, 1.0)


def linear(amounts: tuple[np.ndarray | float, ...], *, sign: float = 1.0) -> np.ndarray:
    """What the made-up beds do: every gram acts in proportion to time."""
    done = (DONE, DONE_LATER)
    moved = np.zeros((NEEDS.size, DAYS))
    for one, amount in zip(done, amounts, strict=False):
        moved += np.broadcast_to(amount, NEEDS.shape)[:, None] * one[None, :] / NEEDS[:, None]
    return 7.0 - sign * moved


def surface(*, sign: float = 1.0, spells: tuple[slice, ...] = (slice(0, DAYS),)) -> DoseSurface:
    return dose_surface(
        KNOTS,
        np.stack([linear((float(x),), sign=sign) for x in KNOTS], axis=2),
        later_ph=(linear((REFERENCE, REFERENCE), sign=sign),),
        later_from=(3,),
        reference_g_m2=REFERENCE,
        sign=sign,
        spells=spells,
    )


@pytest.mark.parametrize("sign", [1.0, -1.0])
def test_what_was_run_is_read_back(sign: float) -> None:
    made = surface(sign=sign)
    for x in KNOTS:
        assert np.allclose(made.course((float(x),)), linear((float(x),), sign=sign))


@pytest.mark.parametrize("sign", [1.0, -1.0])
def test_straight_beds_are_met_between_the_amounts_that_were_run(sign: float) -> None:
    made = surface(sign=sign)
    for x in (10.0, 63.0, 111.0, 249.0):
        assert np.allclose(made.course((x,)), linear((x,), sign=sign))
        for day in range(DAYS):
            assert np.allclose(made.at(day, (x,)), linear((x,), sign=sign)[:, day])


def test_a_later_amount_counts_as_so_many_of_the_first_season() -> None:
    """By the last day both have acted in full; before the later one goes on it counts nothing."""
    made = surface()
    assert np.allclose(made.worth[:, 1, -1], 1.0)
    assert np.all(made.worth[:, 1, :4] == 0.0)
    assert np.all(np.diff(made.worth[:, 1]) >= -1e-9)
    assert np.allclose(made.course((50.0, 70.0)), linear((50.0, 70.0)))


def test_each_bed_has_its_own_worth() -> None:
    """The second bed loses half of what the second season brings it."""
    twice = linear((REFERENCE, REFERENCE))
    twice[1] = linear((REFERENCE, 0.5 * REFERENCE))[1]
    made = dose_surface(
        KNOTS,
        np.stack([linear((float(x),)) for x in KNOTS], axis=2),
        later_ph=(twice,),
        later_from=(3,),
        reference_g_m2=REFERENCE,
        sign=1.0,
        spells=(slice(0, DAYS),),
    )
    assert np.allclose(made.worth[:, 1, -1], [1.0, 0.5, 1.0, 1.0])
    assert np.allclose(made.furthest_worth[:, 0, 1], [1.0, 0.5, 1.0, 1.0])
    assert made.at(DAYS - 1, (40.0, 60.0))[1] == pytest.approx(7.0 - 70.0 / NEEDS[1])


def test_curved_beds_are_met_between_the_amounts_that_were_run() -> None:
    """A made-up square root, met twice as closely as by straight lines from point to point."""

    def rooted(amount: float) -> np.ndarray:
        return 7.0 - np.sqrt(linear((0.0,)) - linear((amount,)) + 0.01)

    made = dose_surface(
        KNOTS,
        np.stack([rooted(float(x)) for x in KNOTS], axis=2),
        later_ph=(),
        later_from=(),
        reference_g_m2=REFERENCE,
        sign=1.0,
        spells=(slice(0, DAYS),),
    )
    for x in (65.0, 125.0, 205.0):
        straight = np.interp(x, KNOTS, [rooted(float(one))[0, -1] for one in KNOTS])
        true = rooted(x)[0, -1]
        assert abs(made.at(DAYS - 1, (x,))[0] - true) < 0.5 * abs(straight - true)


@pytest.mark.parametrize("sign", [1.0, -1.0])
def test_the_amount_that_passes_a_ph_is_the_inverse_of_the_course(sign: float) -> None:
    made = surface(sign=sign)
    ph = 7.0 - sign * 1.3
    needed = made.passing(DAYS - 1, ph)
    inside = KNOTS[-1] >= 1.3 * NEEDS
    assert np.allclose(needed[inside], 1.3 * NEEDS[inside]) and np.all(np.isposinf(needed[~inside]))
    assert np.all(np.isneginf(made.passing(DAYS - 1, 7.0 + sign * 0.1)))
    assert np.allclose(made.passing_ever(ph)[inside, 0], 1.3 * NEEDS[inside])


def test_amounts_may_differ_by_bed_and_be_tried_side_by_side() -> None:
    made = surface()
    own = np.array([10.0, 80.0, 120.0, 200.0])
    assert np.allclose(made.course((own,)), linear((own,)))
    grid = np.broadcast_to(KNOTS, (NEEDS.size, KNOTS.size))
    wide = made.at(DAYS - 1, (np.full(grid.shape, 20.0), grid))
    assert wide.shape == grid.shape
    for column, x in enumerate(KNOTS):
        assert np.allclose(wide[:, column], made.at(DAYS - 1, (20.0, float(x))))
    mixed = made.at(DAYS - 1, (own, grid))
    for column, x in enumerate(KNOTS):
        assert np.allclose(mixed[:, column], made.at(DAYS - 1, (own, float(x))))


@pytest.mark.parametrize("sign", [1.0, -1.0])
def test_more_goes_further_and_beyond_the_last_amount_its_value_holds(sign: float) -> None:
    made = surface(sign=sign)
    ends = [made.at(DAYS - 1, (x,)) for x in np.linspace(0.0, 250.0, 30)]
    assert all(np.all(sign * (b - a) <= 1e-12) for a, b in pairwise(ends))
    assert np.allclose(made.at(DAYS - 1, (900.0,)), made.at(DAYS - 1, (250.0,)))


def test_the_furthest_is_looked_for_among_the_days_watched() -> None:
    whole, early = surface(), surface(spells=(slice(0, 2),))
    assert np.allclose(whole.furthest((90.0,)), 7.0 - 90.0 / NEEDS)
    assert np.allclose(early.furthest((90.0,)), 7.0 - 90.0 / NEEDS / 3.0)
    assert np.allclose(surface(sign=-1.0).furthest((90.0,)), 7.0 + 90.0 / NEEDS)
    parts = surface(spells=(slice(0, 2), slice(1, 5), slice(4, DAYS)))
    assert np.allclose(parts.furthest((60.0, 50.0)), whole.furthest((60.0, 50.0)))
    assert np.all(parts.furthest_worth[:, 0, 1] == 0.0)


def test_a_later_amount_never_counts_as_more_than_the_limit() -> None:
    far = linear((REFERENCE,)) - 30.0
    made = dose_surface(
        KNOTS,
        np.stack([linear((float(x),)) for x in KNOTS], axis=2),
        later_ph=(far,),
        later_from=(3,),
        reference_g_m2=REFERENCE / 4.0,
        sign=1.0,
        spells=(slice(0, DAYS),),
    )
    assert made.worth[:, 1].max() == MOST_WORTH == made.furthest_worth[:, 0, 1].max()


@pytest.mark.parametrize("knots", [[10.0, 20.0], [0.0, 20.0, 20.0], [0.0, 30.0, 20.0]])
def test_amounts_that_do_not_rise_from_nothing_are_refused(knots: list[float]) -> None:
    with pytest.raises(InputError):
        dose_surface(
            np.array(knots),
            np.zeros((2, 3, len(knots))),
            later_ph=(),
            later_from=(),
            reference_g_m2=1.0,
            sign=1.0,
            spells=(slice(0, 3),),
        )


def test_one_value_per_amount_is_needed() -> None:
    with pytest.raises(InputError):
        dose_surface(
            KNOTS,
            np.zeros((2, 3, 4)),
            later_ph=(),
            later_from=(),
            reference_g_m2=1.0,
            sign=1.0,
            spells=(slice(0, 3),),
        )


def test_every_later_season_begins_somewhere() -> None:
    with pytest.raises(InputError, match="later seasons"):
        dose_surface(
            KNOTS,
            np.zeros((2, 3, 5)),
            later_ph=(np.zeros((2, 3)),),
            later_from=(),
            reference_g_m2=1.0,
            sign=1.0,
            spells=(slice(0, 3),),
        )
