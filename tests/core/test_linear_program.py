"""A small linear program against a library's solver, and where it has no answer."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from loamshift.core.linear_program import FloatArray, cheapest_point
from loamshift.errors import LoamshiftError

NO_ROWS = np.empty((0, 1))
NONE = np.empty(0)


def figures(*shape: int) -> st.SearchStrategy[FloatArray]:
    size = int(np.prod(shape))
    whole = st.lists(st.integers(-20, 20), min_size=size, max_size=size)
    return whole.map(lambda tenths: np.array(tenths).reshape(shape) / 10.0)


@st.composite
def programs(draw: st.DrawFn) -> dict[str, FloatArray]:
    """Costs from nothing up, so that a least one exists wherever any point does."""
    n, upper, same = (draw(st.integers(low, high)) for low, high in ((1, 6), (0, 5), (0, 2)))
    return {
        "cost": np.abs(draw(figures(n))),
        "at_most": draw(figures(upper, n)),
        "at_most_to": draw(figures(upper)),
        "equal": draw(figures(same, n)),
        "equal_to": draw(figures(same)),
    }


@settings(max_examples=400, deadline=None)
@given(programs())
def test_the_cost_is_that_of_another_solver_and_all_conditions_hold(
    program: dict[str, FloatArray],
) -> None:
    cost, upper, equal = (program[key] for key in ("cost", "at_most", "equal"))
    other = linprog(
        cost,
        A_ub=upper if upper.size else None,
        b_ub=program["at_most_to"] if upper.size else None,
        A_eq=equal if equal.size else None,
        b_eq=program["equal_to"] if equal.size else None,
        method="highs",
    )
    found = cheapest_point(**program)
    assert (found is not None) == other.success
    if found is None:
        return
    assert float(cost @ found) == pytest.approx(other.fun, abs=1e-6)
    assert np.all(found >= 0.0)
    assert np.all(upper @ found <= program["at_most_to"] + 1e-9)
    assert equal @ found == pytest.approx(program["equal_to"], abs=1e-9)


def test_a_condition_said_twice_is_one() -> None:
    twice = np.array([[1.0, 1.0], [2.0, 2.0]])
    found = cheapest_point(
        np.array([2.0, 1.0]),
        at_most=np.array([[0.0, 1.0]]),
        at_most_to=np.array([3.0]),
        equal=twice,
        equal_to=np.array([4.0, 8.0]),
    )
    assert found is not None
    assert found.tolist() == [1.0, 3.0]


def test_conditions_against_each_other_have_no_point() -> None:
    at_most, equal = np.array([[1.0]]), np.array([[1.0]])
    found = cheapest_point(
        np.array([1.0]),
        at_most=at_most,
        at_most_to=np.array([1.0]),
        equal=equal,
        equal_to=np.array([2.0]),
    )
    assert found is None


def test_a_cost_that_falls_for_ever_is_an_error() -> None:
    with pytest.raises(LoamshiftError, match="no least cost"):
        cheapest_point(
            np.array([-1.0]), at_most=NO_ROWS, at_most_to=NONE, equal=NO_ROWS, equal_to=NONE
        )
