"""What a test was expected to read on its own day, by all that was known before it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from typing import Final, Literal

import numpy as np
from numpy.typing import NDArray

from loamshift.core.member_weights import Weights, normal_slices, weigh_members
from loamshift.domain.message import Message, message, ph
from loamshift.domain.ph import PhMethod, PhReading
from loamshift.services.context.reading_words import taken_as_told
from loamshift.services.context.readings import SeasonReading
from loamshift.tables.model import verdict_values

FloatArray = NDArray[np.float64]
Place = Literal["below", "inside", "above"]
Answered = Literal["as-expected", "less", "more", "higher", "lower"]

ERROR_SLICES: Final = 25
"""Equally likely errors of a reading that blur what is expected of it [count]."""
ROUNDING_PH: Final = 1e-6
"""So far may two printed figures be apart by rounding alone [pH]."""
SHOWN_PLACES: Final = 1
"""Decimals of a pH in a letter: whether a reading is inside is judged by what is printed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ExpectedReading:
    """A test beside what was expected of it on its day.

    ``read_ph`` what it read, ``low`` to ``high`` the range for 90 in 100 such tests and
    ``middle`` the best estimate; ``before_ph`` what the test before it read [pH in water].
    ``readings`` of that test, ``method`` of the most exact of them.
    """

    day: date
    read_ph: float
    low: float
    middle: float
    high: float
    before_ph: float | None = None
    method: PhMethod = PhMethod.WATER_1_2_5
    readings: tuple[PhReading, ...] = ()

    @property
    def place(self) -> Place:
        """Whether the test lies in the range for 90 in 100, as printed."""
        low, read, high = (round(one, SHOWN_PLACES) for one in (self.low, self.read_ph, self.high))
        return "below" if read < low else "above" if read > high else "inside"

    @property
    def answered(self) -> Answered:
        """How the bed answered: only what two tests could show counts as more or less.

        A bed that was left to drift is held against the range alone.
        """
        apart = round(self.read_ph, SHOWN_PLACES) - round(self.middle, SHOWN_PLACES)
        least = verdict_values()["leave_gain_ph"]
        if self.place == "inside" and abs(apart) < least - ROUNDING_PH:
            return "as-expected"
        move = 0.0 if self.before_ph is None else self.middle - self.before_ph
        if abs(move) < least:
            drifted: Answered = "higher" if apart > 0.0 else "lower"
            return "as-expected" if self.place == "inside" else drifted
        return "more" if apart * move > 0.0 else "less"

    @property
    def words(self) -> Message:
        """The test and what was expected of it, in one sentence."""
        return message(
            "refit-expected",
            day=self.day,
            reading=taken_as_told(self.read_ph, method=self.method, readings=self.readings),
            answered=self.answered,
            place=self.place,
            middle=ph(self.middle),
            low=ph(self.low),
            high=ph(self.high),
        )


def latest_expected(
    weights: Weights, seasons: Sequence[SeasonReading], *, degrees: float
) -> ExpectedReading:
    """The latest test beside what was expected of it on its day, by the readings before it.

    Parameters
    ----------
    weights
        Weights of possible beds, with what each would have read on the days of the seasons after
        the first.
    seasons
        Readings by season, two or more, the oldest first.
    degrees
        Degrees of freedom of the error of a reading [1].

    Notes
    -----
    As where a forecast is scored: it holds the error of the reading that it set out from, and only
    what the latest reading has beyond that is added.

    References
    ----------
    own-arithmetic
    """
    last, known = seasons[-1], seasons[1:-1]
    before = weigh_members(
        weights.z,
        weights.fitted_ph[:, :, : len(known)],
        read_ph=[season.ph_water for season in known],
        read_sd_ph=[season.belief.ph_water_sd for season in known],
        degrees=degrees,
    )
    held, own = seasons[-2].belief.ph_water_sd, last.belief.ph_water_sd
    error = math.sqrt(max(own**2 - held**2, 0.0)) * normal_slices(ERROR_SLICES)
    low, middle, high = weighted_quantiles(
        np.add.outer(weights.fitted_ph[:, :, -1].ravel(), error).ravel(),
        np.repeat(before.weight.ravel() / error.size, error.size),
        probabilities=(0.05, 0.5, 0.95),
    ).tolist()
    return ExpectedReading(
        day=last.day,
        read_ph=last.ph_water,
        low=low,
        middle=middle,
        high=high,
        before_ph=seasons[-2].ph_water,
        method=last.leading.method,
        readings=last.readings,
    )


def weighted_quantiles(
    values: FloatArray, weights: FloatArray, *, probabilities: Sequence[float]
) -> FloatArray:
    """Quantiles of weighted values.

    Parameters
    ----------
    values
        Values, shape (N,) [any unit].
    weights
        Weight of each, shape (N,) [1].
    probabilities
        Probabilities 0 to 1 [1].

    Returns
    -------
    ndarray
        One a probability [the same unit].

    References
    ----------
    own-arithmetic
    """
    order = np.argsort(values)
    below = np.cumsum(weights[order])
    middles = (below - 0.5 * weights[order]) / below[-1]
    return np.interp(probabilities, middles, values[order])
