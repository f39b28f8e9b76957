"""The tests that can still be made of a bed, and what each would read in every possible bed."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.information import OUTCOMES, outcome_shares
from loamshift.core.reading_bins import normal_probability
from loamshift.domain.bed_context import BedContext
from loamshift.domain.ph import PhMethod
from loamshift.domain.worth import FurtherTest
from loamshift.services.belief.bed_run import Runner
from loamshift.services.context.buffer_test import buffer_test_tells
from loamshift.services.context.build_context import require_soil
from loamshift.services.context.readings import current_season
from loamshift.services.verdict.doubts import unknown_of_water
from loamshift.tables.model import buffer_scale_spread, verdict_values
from loamshift.tables.parameters import parameter_values
from loamshift.tables.soils import soil_values

FloatArray = NDArray[np.float64]

FIZZ_EDGES_PCT: Final = (0.5, 2.0, 10.0, 25.0)
"""Free lime between the classes none, slight, moderate, strong and extreme, with strong acid."""
NEXT_TO_NO_LIME_PCT: Final = 1e-3
LEAST_ERROR: Final = 1e-3


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """A test with the path of its result, and how likely each bed gives each outcome (M, J)."""

    test: FurtherTest
    field: str
    shares: FloatArray


def candidates(context: BedContext, beds: Runner) -> tuple[Candidate, ...]:
    """Every test that can still be made now, in the order of the table of tests.

    Parameters
    ----------
    beds
        The possible beds, by what is known already.

    Notes
    -----
    A test that was made is not among them, except one more sample by the method of the first.
    """
    return (*_of_lime(context, beds), *_of_ph(context, beds), *_of_buffering(context, beds))


def _of_lime(context: BedContext, beds: Runner) -> Iterator[Candidate]:
    soil = require_soil(context)
    if soil.carbonate.is_possible and not soil.carbonate.measured:
        lime_pct = beds.draw("carbonate_factor")
        if context.case.soil.fizz is None:
            yield Candidate(test=FurtherTest.FIZZ, field="soil.fizz", shares=fizz_shares(lime_pct))
        yield Candidate(
            test=FurtherTest.CARBONATE,
            field="soil.carbonate_pct",
            shares=carbonate_shares(lime_pct),
        )


def fizz_shares(lime_pct: FloatArray) -> FloatArray:
    """Probability that each bed fizzes as each class, from none to extreme.

    Parameters
    ----------
    lime_pct
        Free lime of each bed [%].

    Returns
    -------
    ndarray
        Shape (M, 5) [0-1].
    """
    error = parameter_values("measuring")["fizz_log_error"]
    lime = np.log(np.maximum(lime_pct, NEXT_TO_NO_LIME_PCT))
    below = normal_probability((np.log(FIZZ_EDGES_PCT)[None, :] - lime[:, None]) / error)
    ends = np.zeros((lime.size, 1)), np.ones((lime.size, 1))
    return np.asarray(np.diff(np.concatenate((ends[0], below, ends[1]), axis=1)), dtype=np.float64)


def carbonate_shares(lime_pct: FloatArray) -> FloatArray:
    """Probability that a laboratory finds each bed's free lime in each of some bins.

    Parameters
    ----------
    lime_pct
        Free lime of each bed [%].

    Returns
    -------
    ndarray
        Shape (M, J) [0-1].
    """
    values = soil_values()
    least = values["carbonate_detection_sd_pct"]
    seen = np.maximum(lime_pct, least)
    error = np.sqrt(
        np.log1p((least / seen) ** 2)
        + values["carbonate_log_sd_laboratory"] ** 2
        + values["carbonate_log_sd_sampling"] ** 2
    )
    return outcome_shares(np.log(seen), sd=error, outcomes=OUTCOMES)


def _of_ph(context: BedContext, beds: Runner) -> Iterator[Candidate]:
    ph, shift = require_soil(context).ph, beds.draw("start_ph_shift")
    scatter = verdict_values()["reading_scatter_sd"]
    if ph.method.is_rough:
        careful = math.hypot(scatter, parameter_values("plan")["careful_test_sd_ph"])
        yield Candidate(
            test=FurtherTest.LABORATORY_PH,
            field="soil.ph_method" if ph.method is PhMethod.UNKNOWN else "soil.ph",
            shares=outcome_shares(shift, sd=careful, outcomes=OUTCOMES),
        )
    share, error = core_sees(ph.ph_water_sd, rough=ph.method.is_rough, read=samples_read(context))
    yield Candidate(
        test=FurtherTest.CORE,
        field="reading",
        shares=outcome_shares(share * shift, sd=error, outcomes=OUTCOMES),
    )


def samples_read(context: BedContext) -> int:
    """Readings that the pH of a bed is the mean of, at least 1."""
    season = current_season(context.case)
    return 1 if season is None else len(season.readings)


def core_sees(ph_sd: float, *, rough: bool, read: int = 1, samples: int = 1) -> tuple[float, float]:
    """What more samples by the same method show of the error of the first.

    Parameters
    ----------
    ph_sd
        Error of the first reading, with the scatter of its year [pH].
    rough
        True for a probe, a strip or an unknown method.
    read
        Samples that the first reading is the mean of, at least 1 [count].
    samples
        Samples more, at least 1 [count].

    Returns
    -------
    tuple of float
        Share of the error that they see [0-1], and their own error beside that [pH].

    Notes
    -----
    The first reading is off by u + e: u shared by both samples (the scatter of the year; of a
    rough method half its variance too), e its own. The second differs from the first by e' - e,
    and given u + e = s, e is normal about s var(e) / (var(u) + var(e)). The mean of more samples
    has less of e'.
    """
    shared = verdict_values()["reading_scatter_sd"] ** 2
    own = max(ph_sd**2 - shared, LEAST_ERROR)
    if rough:
        own *= 1.0 - parameter_values("measuring")["core_shared_frac"]
    share = own / max(ph_sd**2, own)
    return share, math.sqrt(own * (1.0 - share) + own * read / samples)


def _of_buffering(context: BedContext, beds: Runner) -> Iterator[Candidate]:
    entry, soil, values = context.case.soil, require_soil(context), parameter_values("measuring")
    floor = parameter_values("buffer")["log10_k_floor_sd"]
    spread = max(float(np.std(beds.log10_k)), LEAST_ERROR)
    tells = buffer_test_tells(context)

    def scale(test: FurtherTest, field: str, error: float) -> Candidate:
        return Candidate(
            test=test,
            field=field,
            shares=outcome_shares(beds.log10_k, sd=error, outcomes=OUTCOMES),
        )

    if "soil.texture" in soil.assumed:
        left = values["texture_left_log10_sd"]
        if spread > left:
            error = error_that_leaves(left, spread=spread)
            yield scale(FurtherTest.TEXTURE, "soil.texture", error)
    if "soil.organic_matter_pct" in context.assumed and entry.organic_carbon_pct is None:
        left = math.sqrt(max(spread**2 - buffer_scale_spread().log10_k_sd_carbon_unknown ** 2, 0.0))
        error = error_that_leaves(max(left, 0.5 * spread), spread=spread)
        yield scale(FurtherTest.ORGANIC_MATTER, "soil.organic_matter_pct", error)
    if tells and not context.case.titration:
        error = math.hypot(parameter_values("buffer")["log10_k_sd_buffer_ph"], floor)
        yield scale(FurtherTest.BUFFER_PH, "soil.buffer_ph", error)
    if not context.case.titration:
        yield scale(FurtherTest.JARS, "titration", math.hypot(values["jar_log10_error"], floor))
    if not context.water_known and context.irrigation_mm_year > 0.0:
        unknown = unknown_of_water(context)
        of_amount = unknown == "water.weekly"
        test = FurtherTest.WATER_AMOUNT if of_amount else FurtherTest.WATER
        error = values["water_amount_log_error" if of_amount else "water_log_error"]
        seen = np.log(np.maximum(beds.draw("alkalinity_factor"), LEAST_ERROR))
        yield Candidate(
            test=test,
            field=unknown,
            shares=outcome_shares(seen, sd=error, outcomes=OUTCOMES),
        )


def error_that_leaves(left_sd: float, *, spread: float) -> float:
    """Error of a test that narrows a normal belief to what it leaves.

    Parameters
    ----------
    left_sd
        Spread after it, below the spread before [any unit].
    spread
        Spread before it [the same unit].

    Returns
    -------
    float
        By precisions: 1/left^2 = 1/spread^2 + 1/error^2 [the same unit].
    """
    return 1.0 / math.sqrt(1.0 / left_sd**2 - 1.0 / spread**2)
