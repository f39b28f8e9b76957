"""Many beds through the column: packed side by side, each indexed by its place in the block.

One signature for processor and graphics card: a bed finds its layers, curve and events by its
own index, and what beds of one place share by an index of the place.
"""

from __future__ import annotations

from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, fields, replace
from itertools import pairwise
from typing import Final

import numpy as np

from loamshift.core.column_kernel import ASTRAY, N_SUMS, is_ready, room_for, run_members
from loamshift.core.column_layout import FloatArray, IntArray
from loamshift.core.column_numbers import LANES, N_DOSE, N_SIZE_NUMBERS
from loamshift.errors import InputError, OutOfRangeError

OF_PLACE: Final = ("warmth", "laws")
"""Fields of ``ManyRuns`` that are not indexed by bed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ManyRuns:
    """Beds of equal layers and doses, as the kernel reads them; B beds, M members, L layers.

    ``plan`` (B, 3) layers sampled, days between readings, steps in a day; ``shared`` (B, 3),
    ``members`` (B, M, fields), ``curve`` (B, points, 3), ``layers`` (B, L, 8), ``water``
    (B, days, 3 + L), ``when`` (B, events, 3), ``events`` (B, events, 8 + L), ``sizes``
    (B, doses, classes, 8), ``doses`` (B, doses, 11): as for one bed in ``column_pack``, with
    events no bed has put on the day after the last. ``warmth`` (W, days, L, 7) by place and
    ``warmth_of`` (B,) which one is the bed's; ``laws`` (laws,).
    """

    plan: IntArray
    shared: FloatArray
    members: FloatArray
    laws: FloatArray
    curve: FloatArray
    layers: FloatArray
    warmth: FloatArray
    warmth_of: IntArray
    water: FloatArray
    when: IntArray
    events: FloatArray
    sizes: FloatArray
    doses: FloatArray

    @property
    def n_beds(self) -> int:
        """Number of beds."""
        return int(self.members.shape[0])

    @property
    def n_members(self) -> int:
        """Members of each bed."""
        return int(self.members.shape[1])

    @property
    def n_layers(self) -> int:
        """Layers of each bed."""
        return int(self.layers.shape[1])

    @property
    def n_days(self) -> int:
        """Days of the run."""
        return int(self.water.shape[1])

    @property
    def n_readings(self) -> int:
        """Readings of each member, the first on day 0."""
        return self.n_days // int(self.plan[:, 1].max(initial=1)) + 1

    def __post_init__(self) -> None:
        beds = self.members.shape[0]
        for field in fields(self):
            values = getattr(self, field.name)
            if field.name not in OF_PLACE and values.shape[0] != beds:
                raise InputError(
                    f"{field.name} holds {values.shape[0]} beds and members holds {beds}; "
                    "give each a row for each bed"
                )
            if values.dtype == np.float64 and not np.isfinite(values).all():
                raise OutOfRangeError(f"{field.name} holds a value that is no number")
        if beds and (self.warmth_of.min() < 0 or self.warmth_of.max() >= self.warmth.shape[0]):
            raise OutOfRangeError("warmth_of names a place that warmth does not hold")
        if beds and np.unique(self.plan[:, 1:], axis=0).shape[0] > 1:
            raise InputError("beds of one block must be read on the same days; part them")
        if (self.when[:, :, 0] > self.n_days).any() or (self.when[:, :, 0] < 0).any():
            raise InputError("an event falls before the first day or after the last; leave it out")

    def beds(self, which: slice) -> ManyRuns:
        """Some of the beds, one after the other.

        Parameters
        ----------
        which
            From which up to which, without a step [index].

        Returns
        -------
        ManyRuns
            Views of the same numbers [as here].

        References
        ----------
        own-arithmetic
        """
        own = {f.name: getattr(self, f.name)[which] for f in fields(self) if f.name not in OF_PLACE}
        return replace(self, **own)


@dataclass(frozen=True, slots=True, kw_only=True)
class ManyResults:
    """What the beds did; B beds, M members, R readings, L layers.

    ``ph`` (B, M, R) of the mixed sample [pH in water]; ``oxidised_frac`` (B, M, R) of all sulfur
    put on so far [0-1]; ``ends`` (B, M, 2, L) pH and carbonate at the end [pH, mmolc/m2];
    ``sums`` (B, M, 7) as in ``column_kernel`` [mixed].
    """

    ph: FloatArray
    oxidised_frac: FloatArray
    ends: FloatArray
    sums: FloatArray

    @property
    def balance_error(self) -> FloatArray:
        """The worst of the members of each bed, shape (B,) [share of all acid moved]."""
        return np.asarray(self.sums[:, :, ASTRAY].max(axis=1), dtype=np.float64)


def room_for_results(runs: ManyRuns) -> ManyResults:
    """Arrays for the results of a block, to be filled.

    Parameters
    ----------
    runs
        The beds [arrays].

    Returns
    -------
    ManyResults
        Nothing in them yet; sums and shares begin at 0 [as named there].

    Notes
    -----
    56 KB a bed and member-hundred for two years of weekly readings.

    References
    ----------
    own-arithmetic

    Examples
    --------
    See ``tests/core/test_column_many.py`` for whole runs.

    >>> from types import SimpleNamespace
    >>> runs = SimpleNamespace(n_beds=2, n_members=3, n_readings=5, n_layers=4)
    >>> room_for_results(runs).ends.shape
    (2, 3, 2, 4)
    """
    beds, members, readings = runs.n_beds, runs.n_members, runs.n_readings
    return ManyResults(
        ph=np.empty((beds, members, readings)),
        oxidised_frac=np.zeros((beds, members, readings)),
        ends=np.empty((beds, members, 2, runs.n_layers)),
        sums=np.zeros((beds, members, N_SUMS)),
    )


def run_many(runs: ManyRuns, *, threads: int = 1) -> ManyResults:
    """How the pH of many beds moves, on the processor.

    Parameters
    ----------
    runs
        Beds of equal layers and doses [arrays].
    threads
        Threads that share the beds, 1 or more [count].

    Returns
    -------
    ManyResults
        Of each bed and member [units as named there].

    Raises
    ------
    OutOfRangeError
        For no thread, or where a member gave no number.

    Notes
    -----
    The bits of ``column.run_column``, bed by bed, whatever the threads, the block and the order.

    References
    ----------
    own-judgement

    Examples
    --------
    See ``tests/core/test_column_many.py``.

    >>> run_many(None, threads=0)
    Traceback (most recent call last):
    ...
    loamshift.errors.OutOfRangeError: threads = 0 must be 1 or more
    """
    if threads < 1:
        raise OutOfRangeError(f"threads = {threads} must be 1 or more")
    found = room_for_results(runs)
    edges = [runs.n_beds * i // threads for i in range(threads + 1)]
    parts = [(a, b) for a, b in pairwise(edges) if b > a]
    if threads == 1 or not is_ready():  # the first run compiles, where an interrupt can stop it
        ahead = parts if threads == 1 else [(0, 1)] if parts else []
        for a, b in ahead:
            _run_some(runs, found, a, b)
        if threads == 1:
            parts = []
    if parts:
        with ThreadPoolExecutor(max_workers=threads) as pool:
            try:
                for done in [pool.submit(_run_some, runs, found, a, b) for a, b in parts]:
                    done.result()
            except BaseException:  # an interrupt need not wait for beds not yet begun
                pool.shutdown(wait=False, cancel_futures=True)
                raise
    check_finite(found)
    return found


def check_finite(found: ManyResults) -> None:
    """Look for members that gave no number.

    Parameters
    ----------
    found
        Results of a block [arrays].

    Raises
    ------
    OutOfRangeError
        For the first of them, by bed and member.

    Notes
    -----
    A division by zero stops neither processor nor card.

    References
    ----------
    own-judgement
    """
    sound = np.isfinite(found.sums).all(axis=2) & np.isfinite(found.ph).all(axis=2)
    if not sound.all():
        bed, member = (int(one[0]) for one in np.nonzero(~sound))
        raise OutOfRangeError(
            f"bed {bed} of the block, member {member}, gave no number: "
            "one of its parameters divides by 0"
        )


def _run_some(runs: ManyRuns, found: ManyResults, first: int, last: int) -> None:
    """Beds one after the other, in one room."""
    room = room_for(
        layers=runs.n_layers, doses=runs.doses.shape[1], sizes=max(1, runs.sizes.shape[2])
    )
    bounds = np.array([0, runs.n_members], dtype=np.int64)
    for bed in range(first, last):
        found.sums[bed] = 0.0
        found.oxidised_frac[bed, :, 0] = 0.0
        run_members(
            bounds,
            runs.plan[bed],
            runs.shared[bed],
            runs.members[bed],
            runs.laws,
            runs.curve[bed],
            runs.layers[bed],
            runs.warmth[runs.warmth_of[bed]],
            runs.water[bed],
            runs.when[bed],
            runs.events[bed],
            runs.sizes[bed],
            runs.doses[bed],
            *room,
            found.ph[bed],
            found.oxidised_frac[bed],
            found.ends[bed],
            found.sums[bed],
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class PackedEvents:
    """Events of one bed as the kernel reads them; see ``column_pack`` and ``column_sulfur_dose``.

    ``when`` (events, 3), ``events`` (events, 8 + L), ``sizes`` (doses, classes, 8), ``doses``
    (doses, 11).
    """

    when: IntArray
    events: FloatArray
    sizes: FloatArray
    doses: FloatArray

    @property
    def shape(self) -> tuple[int, int]:
        """Doses of sulfur and their size classes: beds of one block have the same."""
        return int(self.sizes.shape[0]), int(self.sizes.shape[1]) if self.sizes.shape[0] else 1


def stack_events(
    beds: Sequence[PackedEvents], *, n_layers: int, n_days: int
) -> tuple[IntArray, FloatArray, FloatArray, FloatArray]:
    """The events of beds of equal doses side by side.

    Parameters
    ----------
    beds
        Each bed's events; all with as many doses and size classes [arrays].
    n_layers
        Layers of each bed [count].
    n_days
        Days of the run [d].

    Returns
    -------
    tuple of ndarray
        ``when``, ``events``, ``sizes`` and ``doses`` of ``ManyRuns`` [mixed].

    Raises
    ------
    InputError
        For beds that differ in doses or size classes.

    Notes
    -----
    A bed with fewer events is given events on the day after the last, which never happen.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> one = PackedEvents(when=np.array([[3, 8, -1]]), events=np.ones((1, 9)),
    ...                    sizes=np.zeros((0, 1, 8)), doses=np.zeros((0, 11)))
    >>> stack_events([one], n_layers=1, n_days=9)[0].tolist()
    [[[3, 8, -1]]]
    """
    shapes = {one.shape for one in beds}
    if len(shapes) > 1:
        raise InputError(f"beds of one block differ in sulfur doses and sizes: {sorted(shapes)}")
    doses, classes = shapes.pop() if shapes else (0, 1)
    most = max([one.when.shape[0] for one in beds], default=0)
    width = beds[0].events.shape[1] if beds else 8 + n_layers
    when = np.zeros((len(beds), most, 3), dtype=np.int64)
    when[:, :, 0], when[:, :, 2] = n_days, -1
    events = np.zeros((len(beds), most, width))
    sizes = np.zeros((len(beds), doses, classes, N_SIZE_NUMBERS))
    given = np.zeros((len(beds), doses, N_DOSE // LANES))
    for i, one in enumerate(beds):
        n = one.when.shape[0]
        when[i, :n], events[i, :n] = one.when, one.events
        if doses:
            sizes[i], given[i] = one.sizes, one.doses
    return when, events, sizes, given
