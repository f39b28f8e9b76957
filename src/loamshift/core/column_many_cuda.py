"""Many beds through the column on a graphics card: a block of threads for each bed's members.

``numba.cuda`` is imported where a card is asked for, never before.
"""

from __future__ import annotations

import warnings
from functools import cache
from typing import Any, Final

import numpy as np

from loamshift.core.column_compile import IS_KEPT
from loamshift.core.column_lane import (
    N_DAYS,
    N_POOLS,
    given_arrays,
    result_arrays,
    room_shapes,
    run_lane,
)
from loamshift.core.column_many import ManyResults, ManyRuns, check_finite, room_for_results
from loamshift.core.column_numbers import LANES
from loamshift.errors import DeviceError

BLOCKS_PER_MULTIPROCESSOR: Final = 4
"""Blocks of 64 threads at work on a multiprocessor: as many as its registers hold [count]."""
MEMORY_SHARE: Final = 0.5
"""Of the free memory of the card, what a run may take [0-1]."""


def run_many_cuda(runs: ManyRuns, *, blocks: int = BLOCKS_PER_MULTIPROCESSOR) -> ManyResults:
    """How the pH of many beds moves, on a graphics card.

    Parameters
    ----------
    runs
        Beds of equal layers and doses [arrays].
    blocks
        Blocks of threads at work on a multiprocessor, 1 or more [count].

    Returns
    -------
    ManyResults
        Of each bed and member [units as named there].

    Raises
    ------
    DeviceError
        Where there is no card, its memory is too small, or it is lost in the run.
    OutOfRangeError
        Where a member gave no number.

    Notes
    -----
    Double precision and the laws of ``run_many``, compiled for the card; within 1e-12 of its pH,
    not the same bits, since the card adds and multiplies in one rounding. The beds go to the card
    in as many parts as its memory asks for, which changes nothing.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> import sys
    >>> from unittest.mock import patch
    >>> with patch.dict(sys.modules, {"numba": None}):  # as where the extra is not installed
    ...     run_many_cuda(None)  # doctest: +IGNORE_EXCEPTION_DETAIL
    Traceback (most recent call last):
    loamshift.errors.DeviceError: what speaks to a graphics card does not load
    """
    cuda = need_card()
    found = room_for_results(runs)
    if not runs.n_beds:
        return found
    try:
        free = int(cuda.current_context().get_memory_info()[0])
        card = cuda.get_current_device()
        slots = blocks * int(card.MULTIPROCESSOR_COUNT)
        part = beds_at_a_time(runs, free_bytes=free, slots=slots)
        kernel = _kernel(cuda, runs.n_layers)
        for first in range(0, runs.n_beds, part):
            which = slice(first, min(runs.n_beds, first + part))
            _run_part(cuda, kernel, runs.beds(which), found, which, slots)
    except Exception as fault:
        if is_of_card(fault):
            raise DeviceError(lost_card(fault)) from fault
        if is_of_compiler(fault):
            raise DeviceError(unfit_compiler(fault)) from fault
        raise
    check_finite(found)
    return found


def need_card() -> Any:
    """The module that speaks to the card, where there is one.

    Returns
    -------
    module
        ``numba.cuda`` [module].

    Raises
    ------
    DeviceError
        Where the extra is not installed, or no card or driver is found.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> import sys
    >>> from unittest.mock import patch
    >>> with patch.dict(sys.modules, {"numba": None}):  # as where the extra is not installed
    ...     need_card()  # doctest: +IGNORE_EXCEPTION_DETAIL
    Traceback (most recent call last):
    loamshift.errors.DeviceError: what speaks to a graphics card does not load
    """
    cuda: Any
    try:
        from numba import cuda
    except Exception as fault:  # a version that does not load with this numpy, too
        raise DeviceError(unfit_compiler(fault)) from fault
    try:
        found = bool(cuda.is_available())
    except Exception as fault:
        if not is_of_card(fault):
            raise
        found = False
    if not found:
        raise DeviceError(
            "no graphics card that CUDA can use was found; look whether nvidia-smi names one "
            "and the extra is installed (pip install 'loamshift[gpu]'), or run on the "
            "processor with --device cpu"
        )
    return cuda


def beds_at_a_time(runs: ManyRuns, *, free_bytes: int, slots: int) -> int:
    """How many of the beds the memory of a card holds at one time.

    Parameters
    ----------
    runs
        The beds [arrays].
    free_bytes
        Free memory of the card [byte].
    slots
        Blocks of members at work at one time [count].

    Returns
    -------
    int
        1 or more [count].

    Raises
    ------
    DeviceError
        Where not even one bed fits.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> from types import SimpleNamespace
    >>> names = "plan shared members laws curve layers warmth warmth_of water when events "
    >>> names += "sizes doses"
    >>> runs = SimpleNamespace(**{name: np.ones((1, 2, 3)) for name in names.split()})
    >>> runs.n_beds, runs.n_members, runs.n_readings, runs.n_layers = 1, 2, 3, 4
    >>> runs.beds = lambda which: SimpleNamespace(**{**vars(runs), "n_beds": 1})
    >>> runs.n_beds = 500
    >>> beds_at_a_time(runs, free_bytes=10**9, slots=1)  # all of them
    500
    >>> 1 < beds_at_a_time(runs, free_bytes=10**6, slots=1) < 500
    True
    """
    room = sum(int(np.prod(shape)) * 8 for shape, _ in room_shapes(runs, slots))
    shared = runs.laws.nbytes + runs.warmth.nbytes
    one = runs.beds(slice(0, 1))
    per_bed = sum(int(array.nbytes) for array in given_arrays(one)) - shared
    per_bed += sum(int(array.nbytes) for array in result_arrays(room_for_results(one)))
    fits = int((MEMORY_SHARE * free_bytes - room - shared) // per_bed)
    if fits < 1:
        wanted = (room + shared + per_bed) / MEMORY_SHARE / 1e6
        raise DeviceError(
            f"the card has {free_bytes / 1e6:.0f} MB of free memory and {wanted:.0f} MB are "
            "needed; close what else uses it, ask for fewer members or years, or run on the "
            "processor with --device cpu"
        )
    return min(fits, runs.n_beds)


def lost_card(fault: Exception) -> str:
    """What to say where the card failed in the run.

    Parameters
    ----------
    fault
        What the driver raised [exception].

    Returns
    -------
    str
        What happened and what to do next [text].

    References
    ----------
    own-judgement

    Examples
    --------
    >>> "--device cpu" in lost_card(RuntimeError("gone"))
    True
    """
    said = " ".join(str(fault).split())[:200] or type(fault).__name__
    return (
        f"the graphics card stopped in the middle of the work ({said}); nothing of this part is "
        "kept. Start again in a new process: what was finished before is not lost; or run on the "
        "processor with --device cpu"
    )


def unfit_compiler(fault: Exception) -> str:
    """What to say where the compiler for the card does not load, or fails on its own.

    Parameters
    ----------
    fault
        What was raised [exception].

    Returns
    -------
    str
        What happened and what to do next [text].

    References
    ----------
    own-judgement

    Examples
    --------
    >>> unfit_compiler(AttributeError("no attribute 'row_stack'"))[:40]
    'what compiles for a graphics card does n'
    """
    said = " ".join(str(fault).split())[:200]
    return (
        f"what compiles for a graphics card does not work here ({type(fault).__name__}: {said}), "
        "as happens where its version and NumPy's do not fit; install the extra, which names "
        "versions that do: pip install 'loamshift[gpu]', or run on the processor with --device cpu"
    )


def is_of_compiler(fault: BaseException) -> bool:
    """Whether an exception was raised within the compiler for the card, not by our code.

    Parameters
    ----------
    fault
        What was raised [exception].

    Returns
    -------
    bool
        True where the last step was the compiler's own [truth].

    References
    ----------
    own-judgement

    Examples
    --------
    >>> is_of_compiler(ValueError())
    False
    """
    step = fault.__traceback__
    while step is not None and step.tb_next is not None:
        step = step.tb_next
    last = "" if step is None else str(step.tb_frame.f_globals.get("__name__"))
    return last.partition(".")[0] in ("numba", "numba_cuda", "llvmlite")


def is_of_card(fault: BaseException) -> bool:
    """Whether an exception comes from the driver of the card and not from our code.

    Parameters
    ----------
    fault
        What was raised [exception].

    Returns
    -------
    bool
        True for the driver's own [truth].

    References
    ----------
    own-judgement

    Examples
    --------
    >>> is_of_card(ValueError())
    False
    """
    return any(
        one.__name__.startswith(("Cuda", "CUDA", "Driver", "NvvmSupport", "LinkerError"))
        for one in type(fault).__mro__
    )


def _run_part(
    cuda: Any, kernel: Any, runs: ManyRuns, found: ManyResults, which: slice, slots: int
) -> None:
    """Some of the beds: their numbers to the card, the run, and the results back."""
    blocks = -(-runs.n_members // LANES)
    used = min(slots, runs.n_beds * blocks)
    given = [cuda.to_device(array) for array in given_arrays(runs)]
    room = [cuda.device_array(shape, dtype=kind) for shape, kind in room_shapes(runs, used)]
    filled = [array[which] for array in result_arrays(found)]
    results = [cuda.device_array(array.shape, dtype=np.float64) for array in filled]
    with warnings.catch_warnings():
        warnings.filterwarnings(
            "ignore", message=r"(?s).*under-utilization"
        )  # few beds are no fault
        kernel[used, LANES](*given, *room, *results)
    for array, result in zip(filled, results, strict=True):
        result.copy_to_host(array)


@cache
def _kernel(cuda: Any, layers: int) -> Any:
    """The kernel for so many layers, compiled for the card at its first call."""
    return cuda.jit(cache=IS_KEPT)(kernel_source(cuda, layers))


def kernel_source(cuda: Any, n_layers: int) -> Any:
    """What each thread runs.

    Parameters
    ----------
    cuda
        ``numba.cuda`` [module].
    n_layers
        Layers of each bed: the room of a thread is fixed when it is compiled [count].

    Returns
    -------
    function
        To be compiled for a card [function].

    Notes
    -----
    One thread a member, one block of 64 threads a slot.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> kernel_source(None, 3).__code__.co_argcount  # 14 given, 7 to work in, 4 to fill
    25
    """
    from numba import int64

    pools = (n_layers, N_POOLS)

    def kernel(
        counts: Any,
        plan: Any,
        shared: Any,
        members: Any,
        laws: Any,
        curve: Any,
        layers: Any,
        warmth: Any,
        warmth_of: Any,
        water: Any,
        when: Any,
        events: Any,
        sizes: Any,
        given_doses: Any,
        number: Any,
        cell: Any,
        sample: Any,
        grain: Any,
        doses: Any,
        totals: Any,
        work: Any,
        ph: Any,
        oxidised: Any,
        ends: Any,
        sums: Any,
    ) -> None:
        alive = cuda.local.array(pools, int64)
        span = cuda.local.array(N_DAYS, int64)
        run_lane(
            cuda.blockIdx.x,
            cuda.threadIdx.x,
            cuda.gridDim.x,
            counts,
            plan,
            shared,
            members,
            laws,
            curve,
            layers,
            warmth,
            warmth_of,
            water,
            when,
            events,
            sizes,
            given_doses,
            number,
            cell,
            sample,
            grain,
            doses,
            totals,
            work,
            alive,
            span,
            ph,
            oxidised,
            ends,
            sums,
        )

    return kernel
