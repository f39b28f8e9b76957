"""What a sample of the bed would read, in the compiled column."""

from __future__ import annotations

from loamshift.core.column_compile import compiled, inlined
from loamshift.core.column_curve import read_ph, set_carbon
from loamshift.core.column_exp import LN10, exp_of, used_up
from loamshift.core.column_layout import FloatArray
from loamshift.core.column_lime import NEAR_PLATEAU_PH, plateau_base
from loamshift.core.column_numbers import (
    ACID,
    BASE,
    CARBON,
    CARBONATE,
    DOSE_LEFT,
    DOSE_START,
    MASS,
    PH_NOW,
    ROOM,
    law,
    rate,
)

_CARBONATE_EXPONENT = rate("carbonate_exponent")
_CARBONATE_RATE = rate("carbonate_rate")
_STEP_D = rate("step_d")
_SAMPLE_WET_D = law("sample_wet_d")


@compiled
def mix_sample(
    cell: FloatArray,
    curve: FloatArray,
    number: FloatArray,
    work: FloatArray,
    sample: FloatArray,
    sampled: int,
    n: int,
    limy: int,
) -> None:
    """The pH of the mixed sample: that of the mean base, and carbon, of the layers by mass.

    Parameters
    ----------
    cell
        State of the layers [mixed].
    curve
        The soil's curve, see ``column_curve`` [mmolc/kg].
    number
        Numbers of the members [mixed].
    work
        Room to work in; the pH is set here [mixed].
    sample
        The mixed sample, changed here [mixed].
    sampled
        Layers sampled, from the top [count].
    n
        Lanes in use [count].
    limy
        Layers whose native lime reacts before the sample is read, 0 for none [count].

    Notes
    -----
    The sample is a layer of its own that keeps its place on the curve from reading to reading.

    References
    ----------
    own-arithmetic
    """
    last = sample.shape[0] - 1
    for j in range(n):
        sample[0, MASS + j] = 0.0
        sample[0, BASE + j] = 0.0
        work[ACID + j] = 0.0
    for layer in range(sampled):
        for j in range(n):
            mass = cell[layer, MASS + j]
            sample[0, MASS + j] += mass
            sample[0, BASE + j] += mass * cell[layer, BASE + j]
            work[ACID + j] += mass * cell[layer, CARBON + j]
    for j in range(n):
        sample[0, BASE + j] /= sample[0, MASS + j]
        set_carbon(sample, number, last, j, work[ACID + j] / sample[0, MASS + j])
    read_ph(sample, curve, number, work, last, n)
    if limy > 0:
        react_in_sample(cell, curve, number, work, sample, sampled, n)


@compiled
def react_in_sample(
    cell: FloatArray,
    curve: FloatArray,
    number: FloatArray,
    work: FloatArray,
    sample: FloatArray,
    sampled: int,
    n: int,
) -> None:
    """The pH of a mixed sample after it has lain wet for as long as until it is read.

    Answers what a test finds where the fine lime of one depth meets the acid of another. Ground
    lime is left out: a day dissolves a few hundredths of it.

    Parameters
    ----------
    cell
        State of the layers, which stay as they are [mixed].
    curve
        The soil's curve, see ``column_curve`` [mmolc/kg].
    number
        Numbers of the members [mixed].
    work
        Room to work in; the pH is that of :func:`mix_sample`, changed here [mixed].
    sample
        The mixed sample of that function; its base and the native lime left are set here [mixed].
    sampled
        Layers sampled, from the top [count].
    n
        Lanes in use [count].

    Notes
    -----
    min(X, Y (1 - exp(-k g t))), g = 10^(exponent (7 - pH)) below pH 7, as in
    :func:`column_lime.settle_acid`, but in one part: g is that of the sample as mixed. Parts would
    give a little less; fresh lime, whose crystals are finer than k is for, a good deal more. X is
    the lime, over all layers, beyond what would bring its own layer to the plateau; Y is what the
    other layers take beyond lime of their own. Acid that lies in one layer with lime meets it in
    the bed, by the same law and for as long as it lies there: mixing brings it nothing new. Base in
    the soil and base in lime are together what they were.

    References
    ----------
    plummer-1978, wieder-yaalon-1982, own-judgement
    """
    last = sample.shape[0] - 1
    for j in range(n):
        sample[0, CARBONATE + j] = 0.0
        work[ROOM + j] = 0.0
        work[ACID + j] = 0.0
    for layer in range(sampled):
        for j in range(n):
            lime = cell[layer, CARBONATE + j]
            takes = plateau_base(cell, number, layer, j) - cell[layer, BASE + j]
            over = lime - max(0.0, takes * cell[layer, MASS + j])
            sample[0, CARBONATE + j] += lime
            work[ACID + j] += max(0.0, over)
            work[ROOM + j] += max(0.0, -over)
    for j in range(n):
        acid = max(0.0, NEAR_PLATEAU_PH - work[PH_NOW + j])
        g = exp_of(LN10 * number[_CARBONATE_EXPONENT + j] * acid)
        time = g * number[_SAMPLE_WET_D + j] / number[_STEP_D + j]
        given = work[ROOM + j] * used_up(number[_CARBONATE_RATE + j] * time)
        given = min(work[ACID + j], given)
        sample[0, CARBONATE + j] -= given
        sample[0, BASE + j] += given / sample[0, MASS + j]
    read_ph(sample, curve, number, work, last, n)


@inlined
def oxidised_frac(grain: FloatArray, j: int) -> float:
    """Share of all sulfur put on so far that has turned to acid.

    Parameters
    ----------
    grain
        State of the sulfur doses in the layers [mixed].
    j
        Which lane [index].

    Returns
    -------
    float
        Share, 0 where none was put on [0-1].

    Notes
    -----
    All doses and layers together.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> import numpy as np
    >>> from loamshift.core.column_numbers import DOSE_POOL
    >>> grain = np.zeros((1, 1, DOSE_POOL))
    >>> grain[0, 0, DOSE_START], grain[0, 0, DOSE_LEFT] = 10.0, 4.0
    >>> float(oxidised_frac(grain, 0))
    0.6
    """
    start = 0.0
    left = 0.0
    for dose in range(grain.shape[0]):
        for layer in range(grain.shape[1]):
            start += grain[dose, layer, DOSE_START + j]
            left += grain[dose, layer, DOSE_LEFT + j]
    return 1.0 - left / start if start > 0.0 else 0.0
