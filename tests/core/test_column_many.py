"""Many beds through the column: the bits of one bed at a time, whatever lies beside it."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from itertools import pairwise
from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from core.column_cases import event, everything, laws, members, soil, sulfur, weather
from core.many_runs import Bed, runs_of
from loamshift.core import column_many_cuda
from loamshift.core.column import run_column
from loamshift.core.column_events import column_events
from loamshift.core.column_lane import (
    N_DAYS,
    N_POOLS,
    given_arrays,
    result_arrays,
    room_shapes,
    run_lane,
)
from loamshift.core.column_layout import ColumnEvent, EventKind
from loamshift.core.column_many import (
    ManyResults,
    ManyRuns,
    PackedEvents,
    check_finite,
    room_for_results,
    run_many,
    stack_events,
)
from loamshift.core.column_many_cuda import beds_at_a_time, is_of_card, need_card, run_many_cuda
from loamshift.core.column_numbers import LANES
from loamshift.errors import DeviceError, InputError, OutOfRangeError

DAYS = 260
MEMBERS = LANES + 1
FARTHEST_PH = 1e-12


def bed(number: int, rows: list[ColumnEvent], *, carbonate_pct: float = 0.0) -> Bed:
    """A bed of its own soil, members and weather."""
    return (
        soil(6.0 + 0.3 * number, clay_pct=10.0 + 5.0 * number, carbonate_pct=carbonate_pct),
        members(MEMBERS, seed=number),
        weather(DAYS, mean_c=9.0 + number, drainage_mm_year=150.0 + 40.0 * number),
        column_events([row for row in rows if row.day < DAYS], n_layers=3),
    )


@cache
def loads() -> dict[str, tuple[Bed, ...]]:
    """Blocks of beds by what is put on: nothing, one dose, and all kinds."""
    feed = [event(EventKind.AMMONIUM, 300.0, day=day) for day in (15, 200)]
    return {
        "nothing": (bed(0, []), bed(1, [], carbonate_pct=1.0)),
        "one": (
            bed(0, [sulfur(60.0)]),
            bed(1, [*feed, sulfur(90.0, day=50)]),
            bed(2, [sulfur(5.0)]),
        ),
        "all": (bed(1, everything(), carbonate_pct=1.0), bed(3, everything())),
    }


def alone(one: Bed) -> Any:
    """The same bed by itself."""
    the_soil, spread, days, events = one
    return run_column(the_soil, spread, days, events, laws=laws(), sample_depth_cm=15.0, threads=1)


def same(found: ManyResults, beds: tuple[Bed, ...]) -> bool:
    """Whether each bed has the bits of itself alone."""
    return all(
        np.array_equal(found.ph[i], one.ph)
        and np.array_equal(found.oxidised_frac[i], one.oxidised_frac)
        and np.array_equal(found.ends[i, :, 1], one.carbonate_mmolc_m2)
        and found.balance_error[i] == one.balance_error.max()
        for i, one in enumerate(alone(bed) for bed in beds)
    )


@pytest.mark.parametrize("load", ["nothing", "one", "all"])
def test_each_bed_of_many_has_the_bits_of_itself_alone(load: str) -> None:
    beds = loads()[load]
    assert same(run_many(runs_of(beds), threads=2), beds)


def test_order_and_cut_of_the_beds_change_nothing() -> None:
    beds = loads()["one"]
    runs = runs_of(beds)
    whole = run_many(runs)
    turned = run_many(runs_of(beds[::-1]))
    assert np.array_equal(whole.ph, turned.ph[::-1])
    cut = [run_many(runs.beds(slice(a, b))).ph for a, b in pairwise((0, 1, 3))]
    assert np.array_equal(whole.ph, np.concatenate(cut))


@pytest.mark.parametrize("load", ["nothing", "one", "all"])
def test_a_thread_of_a_card_does_what_the_processor_does(load: str) -> None:
    runs = runs_of(loads()[load])
    found, slots = room_for_results(runs), 2
    room = [np.full(shape, 7, dtype=kind) for shape, kind in room_shapes(runs, slots)]
    thread: Any = run_lane
    for slot in range(slots):  # the first lane of each slot: members 0 and 64 of the beds
        own = np.full((runs.n_layers, N_POOLS), 7), np.zeros(N_DAYS, dtype=np.int64)
        thread.py_func(slot, 0, slots, *given_arrays(runs), *room, *own, *result_arrays(found))
    whole = run_many(runs)
    for member in (0, LANES):
        for name in ("ph", "oxidised_frac", "ends", "sums"):
            mine, its = getattr(found, name)[:, member], getattr(whole, name)[:, member]
            assert np.array_equal(mine, its), name


def test_a_card_gives_the_ph_of_the_processor() -> None:
    try:
        need_card()
    except DeviceError:
        pytest.skip("no card here")
    for beds in loads().values():
        runs = runs_of(beds)
        card, processor = run_many_cuda(runs), run_many(runs)
        assert np.abs(card.ph - processor.ph).max() < FARTHEST_PH
        assert np.array_equal(card.ph, run_many_cuda(runs, blocks=1).ph)


def test_the_kernel_compiles_for_a_card_that_is_not_there(monkeypatch: pytest.MonkeyPatch) -> None:
    pytest.importorskip("numba_cuda", reason="the extra gpu is not installed")
    from numba import cuda, types

    made = given_arrays(runs_of(loads()["one"])), room_shapes(runs_of(loads()["one"]), 1)
    kinds = {np.dtype(np.float64): types.float64, np.dtype(np.int64): types.int64}
    arrays = [*((a.dtype, a.ndim) for a in made[0]), *((np.dtype(k), len(s)) for s, k in made[1])]
    results = [(a.dtype, a.ndim) for a in result_arrays(room_for_results(runs_of(loads()["one"])))]
    signature = tuple(types.Array(kinds[kind], n, "C") for kind, n in (*arrays, *results))
    card = SimpleNamespace(compute_capability=(9, 0))
    monkeypatch.setattr("numba.cuda.dispatcher.get_current_device", lambda: card)
    text, _ = cuda.compile_ptx(column_many_cuda.kernel_source(cuda, 3), signature, cc=(9, 0))
    assert ".entry" in text and "fma.rn.f64" in text and "fma.rn.f32" not in text


class FakeCard:
    """A card of so much free memory that fails at its first transfer."""

    MULTIPROCESSOR_COUNT = 2

    def __init__(self, free_bytes: int) -> None:
        self.free_bytes = free_bytes

    def is_available(self) -> bool:
        return True

    def current_context(self) -> Any:
        return SimpleNamespace(get_memory_info=lambda: (self.free_bytes, self.free_bytes))

    def get_current_device(self) -> Any:
        return self

    def jit(self, **_: Any) -> Any:
        return lambda function: function

    def to_device(self, _: Any) -> Any:
        raise CudaAPIError("unknown error 999")


class CudaAPIError(Exception):
    """As the driver calls its own."""


def test_a_lost_card_and_a_small_one_say_what_to_do(monkeypatch: pytest.MonkeyPatch) -> None:
    runs = runs_of(loads()["one"])
    for free_bytes, said in ((10**10, "stopped in the middle"), (10**6, "MB of free memory")):
        card = FakeCard(free_bytes)
        monkeypatch.setattr(column_many_cuda, "need_card", lambda card=card: card)
        with pytest.raises(DeviceError, match=said) as fault:
            run_many_cuda(runs)
        assert "--device cpu" in str(fault.value)


def test_a_compiler_that_does_not_fit_numpy_says_what_to_install(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    names: dict[str, Any] = {"__name__": "numba_cuda.fake"}
    exec("def jit(**_):\n    raise AttributeError('row_stack')", names)
    card = FakeCard(10**10)
    monkeypatch.setattr(card, "jit", names["jit"])
    monkeypatch.setattr(column_many_cuda, "need_card", lambda: card)
    with pytest.raises(DeviceError, match=r"row_stack.*loamshift\[gpu\]"):
        run_many_cuda(runs_of(loads()["one"]))
    monkeypatch.setattr(card, "jit", lambda **_: 1 // 0)
    with pytest.raises(ZeroDivisionError):
        run_many_cuda(runs_of(loads()["one"]))


def test_no_card_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("numba.cuda.is_available", lambda: False)
    with pytest.raises(DeviceError, match="no graphics card"):
        run_many_cuda(runs_of(loads()["one"]))


def test_a_fault_of_ours_is_not_blamed_on_the_card() -> None:
    assert is_of_card(CudaAPIError()) and not is_of_card(ValueError())


def test_the_memory_of_a_card_sets_how_many_beds_go_at_a_time() -> None:
    runs = runs_of(loads()["one"])
    fits: list[int] = []
    for megabytes in range(1, 40):
        try:
            fits.append(beds_at_a_time(runs, free_bytes=megabytes * 200_000, slots=1))
        except DeviceError:
            assert not fits, "what fits into less memory fits into more"
    assert fits == sorted(fits) and set(fits) == {1, 2, 3}


def test_no_beds_are_no_work() -> None:
    assert run_many(runs_of(loads()["one"]).beds(slice(0, 0))).ph.shape[0] == 0


def spoilt(runs: ManyRuns, name: str, value: float) -> dict[str, Any]:
    values = getattr(runs, name).copy()
    values.flat[-1] = value
    return {name: values}


@pytest.mark.parametrize(
    ("name", "value", "fault"),
    [
        ("members", np.nan, OutOfRangeError),
        ("water", np.inf, OutOfRangeError),
        ("warmth_of", 3, OutOfRangeError),
        ("plan", 2, InputError),
    ],
)
def test_blocks_that_no_kernel_could_run_are_refused(
    name: str, value: float, fault: type[Exception]
) -> None:
    runs = runs_of(loads()["one"])
    with pytest.raises(fault):
        replace(runs, **spoilt(runs, name, value))
    with pytest.raises(InputError, match="holds 2 beds"):
        replace(runs, layers=runs.layers[:2])
    when = runs.when.copy()
    when[0, 0, 0] = DAYS + 1
    with pytest.raises(InputError, match="after the last"):
        replace(runs, when=when)


def test_a_member_without_a_number_is_named() -> None:
    found = room_for_results(runs_of(loads()["one"]))
    found.ph[:], found.ends[:] = 6.0, 0.0
    check_finite(found)
    found.ph[1, 2, 0] = np.nan
    with pytest.raises(OutOfRangeError, match="bed 1 of the block, member 2"):
        check_finite(found)


def test_beds_of_other_doses_do_not_share_a_block() -> None:
    one, two = (runs_of(loads()[name]) for name in ("one", "all"))
    beds = [
        PackedEvents(when=r.when[0], events=r.events[0], sizes=r.sizes[0], doses=r.doses[0])
        for r in (one, two)
    ]
    with pytest.raises(InputError, match="differ in sulfur doses"):
        stack_events(beds, n_layers=3, n_days=DAYS)
