"""What the column is made of: limits on both sides, places in its arrays, the day's factors."""

from __future__ import annotations

import threading
import time
from dataclasses import fields, replace
from typing import Any

import numpy as np
import pytest

from core.column_cases import (
    EDGES_CM,
    event,
    everything,
    laws,
    members,
    run,
    soil,
    sulfur,
    weather,
)
from loamshift.core.buffer import ph_after_acid
from loamshift.core.column import LONGEST_BLOCK, run_column
from loamshift.core.column_events import column_events, shares_to_depth
from loamshift.core.column_laws import column_laws
from loamshift.core.column_layout import (
    N_LIME_CLASSES,
    POSITIVE_MEMBER_FIELDS,
    SIGNED_MEMBER_FIELDS,
    ColumnEvent,
    ColumnEvents,
    ColumnSoil,
    ColumnWeather,
    EventKind,
    FloatArray,
    MemberParameters,
)
from loamshift.core.column_numbers import (
    LANES,
    LAW_FIELDS,
    MEMBER_FIELDS,
    RATE_FIELDS,
    law,
    member,
    rate,
)
from loamshift.core.column_pack import (
    climate_array,
    curve_array,
    curve_ends,
    event_arrays,
    law_array,
    layer_array,
    member_array,
    water_array,
)
from loamshift.core.nitrogen import nitrification_rate_per_d, urea_rate_per_d
from loamshift.core.sulfur_rate import temperature_factor
from loamshift.errors import InputError, OutOfRangeError
from loamshift.tables import model
from loamshift.tables.parameters import parameter_values

RUN_MEMBERS = "loamshift.core.column.run_members"
IS_READY = "loamshift.core.column.is_ready"
DAY = weather(3)


def one_bad(values: FloatArray, bad: float) -> FloatArray:
    """The same values with the last one replaced."""
    changed = values.copy()
    changed.flat[-1] = bad
    return changed


# Runs: blocks of members, threads, days and depths


def blocks_run(monkeypatch: pytest.MonkeyPatch, n: int, threads: int) -> list[tuple[int, int]]:
    """The blocks of members handed to the kernel, in order."""
    seen: list[tuple[int, int]] = []
    monkeypatch.setattr(RUN_MEMBERS, lambda block, *_: seen.append((int(block[0]), int(block[1]))))
    run(soil(), members(n), DAY, threads=threads)
    return sorted(seen)


@pytest.mark.parametrize(
    ("n", "threads", "pieces"),
    [(1, 1, 1), (2, 1, 1), (200, 1, 1), (201, 1, 2), (400, 1, 2), (401, 1, 3), (1000, 2, 5),
     (1, 2, 1), (2, 3, 2), (5, 2, 2), (7, 3, 3), (401, 4, 4)],
)  # fmt: skip
def test_every_member_is_run_once_in_even_blocks_that_are_not_too_long(
    monkeypatch: pytest.MonkeyPatch, n: int, threads: int, pieces: int
) -> None:
    blocks = blocks_run(monkeypatch, n, threads)
    assert len(blocks) == pieces
    assert [i for first, end in blocks for i in range(first, end)] == list(range(n))
    lengths = [end - first for first, end in blocks]
    assert max(lengths) - min(lengths) <= 1
    assert 1 <= max(lengths) <= LONGEST_BLOCK == 200


def test_no_members_are_one_empty_block(monkeypatch: pytest.MonkeyPatch) -> None:
    for threads in (1, 2):
        assert blocks_run(monkeypatch, 0, threads) == [(0, 0)]


def test_a_run_without_members_is_an_empty_one() -> None:
    result = run(soil(), members(0), weather(14))
    assert result.ph.shape == (0, 3)
    assert result.end_ph.shape == (0, 3)
    assert result.balance_error.size == 0


@pytest.mark.parametrize("threads", [1, 2])
def test_one_thread_stays_in_the_callers_and_more_leave_it_free(
    monkeypatch: pytest.MonkeyPatch, threads: int
) -> None:
    where: list[bool] = []
    here = threading.current_thread()
    monkeypatch.setattr(RUN_MEMBERS, lambda *_: where.append(threading.current_thread() is here))
    monkeypatch.setattr(IS_READY, lambda: True)
    run(soil(), members(4), DAY, threads=threads)
    assert where == [threads == 1] * threads


def test_what_has_to_be_compiled_first_is_compiled_in_the_callers_thread(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    where: list[bool] = []
    here = threading.current_thread()
    monkeypatch.setattr(RUN_MEMBERS, lambda *_: where.append(threading.current_thread() is here))
    monkeypatch.setattr(IS_READY, lambda: False)
    run(soil(), members(4), DAY, threads=2)
    assert where == [True, False]


@pytest.mark.parametrize("caught", [KeyboardInterrupt, ZeroDivisionError])
def test_an_interrupt_is_passed_on_and_blocks_not_begun_are_left(
    monkeypatch: pytest.MonkeyPatch, caught: type[BaseException]
) -> None:
    begun: list[int] = []

    def slow(block: Any, *_: Any) -> None:
        begun.append(int(block[0]))
        if block[0] == 0:
            raise caught
        time.sleep(0.05)

    monkeypatch.setattr(RUN_MEMBERS, slow)
    monkeypatch.setattr("loamshift.core.column.LONGEST_BLOCK", 1)
    with pytest.raises(caught):
        run(soil(), members(40), DAY, threads=2)
    assert len(begun) < 40


def test_readings_fall_on_the_stride_and_on_the_last_day_only_where_it_does() -> None:
    for days, stride, when in (
        (14, 7, [0, 7, 14]),
        (13, 7, [0, 7]),
        (15, 7, [0, 7, 14]),
        (3, 1, [0, 1, 2, 3]),
        (3, 4, [0]),
    ):
        result = run(soil(), members(), weather(days), stride_days=stride)
        assert result.day.tolist() == when
        assert result.ph.shape == result.oxidised_frac.shape == (1, len(when))


@pytest.mark.parametrize("count", ["threads", "stride_days", "steps_per_day"])
def test_a_count_of_one_is_enough_and_none_is_refused(count: str) -> None:
    changed: dict[str, Any] = {count: 1}
    assert np.isfinite(run(soil(), members(), DAY, **changed).end_ph).all()
    for few in (0, -1):
        changed = {count: few}
        with pytest.raises(OutOfRangeError, match=f"{count} = {few} must be 1 or more"):
            run(soil(), members(), DAY, **changed)


def test_an_event_on_the_last_day_happens_and_one_after_it_is_refused() -> None:
    still = members(background_mmolc_m2_year=0.0, weathering_mmolc_m2_year=0.0)
    last = run(soil(), still, DAY, [event(EventKind.ACID, 5000.0, day=2)], stride_days=1)
    assert last.ph[0, 2] == pytest.approx(6.5, abs=0.01)
    assert last.ph[0, 3] < 6.3
    first = run(soil(), still, DAY, [event(EventKind.ACID, 5000.0, day=0)], stride_days=1)
    assert first.ph[0, 1] < 6.3
    with pytest.raises(InputError, match="falls on day 3, and the weather has 3 days"):
        run(soil(), still, DAY, [event(EventKind.ACID, 5000.0, day=3)])


def test_an_event_before_the_start_is_refused_by_the_run_as_well() -> None:
    events = column_events([sulfur(10.0, day=1), sulfur(10.0, day=2)], n_layers=3)
    early = replace(events, day=np.array([-1, 2], dtype=np.int64))
    with pytest.raises(InputError, match="an event falls on day"):
        run_column(soil(), members(), DAY, early, laws=laws(), sample_depth_cm=15.0)


@pytest.mark.parametrize(("of_weather", "of_events"), [(2, 3), (3, 2), (4, 3), (3, 4)])
def test_weather_or_events_of_other_layers_are_refused(of_weather: int, of_events: int) -> None:
    events = column_events([], n_layers=of_events)
    with pytest.raises(
        InputError, match=f"3 layers, the weather {of_weather} and the events {of_events}"
    ):
        run_column(
            soil(),
            members(),
            weather(3, n_layers=of_weather),
            events,
            laws=laws(),
            sample_depth_cm=15.0,
        )


def test_a_sample_goes_down_to_an_edge_below_the_surface() -> None:
    layered = replace(soil(), start_ph=np.array([5.0, 6.0, 7.0]))
    read = [float(run(layered, members(), DAY, depth_cm=cm).ph[0, 0]) for cm in EDGES_CM[1:]]
    assert read[0] == pytest.approx(5.0, abs=1e-6)
    assert read[0] < read[1] < 6.0 < read[2] < 7.0
    rounded = run(layered, members(), DAY, depth_cm=0.1 * 3 * 50.0)
    assert float(rounded.ph[0, 0]) == read[1]
    for depth_cm in (0.0, 14.99, 15.01, 31.0):
        with pytest.raises(OutOfRangeError, match=r"no edge of a layer \(5, 15, 30 cm\)"):
            run(layered, members(), DAY, depth_cm=depth_cm)


@pytest.mark.parametrize("layers", [1, 2, 4, 5])
def test_acid_through_any_number_of_layers_moves_them_along_the_buffer_curve(layers: int) -> None:
    edges = tuple(20.0 * i / layers for i in range(layers + 1))
    still = members(background_mmolc_m2_year=0.0, weathering_mmolc_m2_year=0.0)
    days = weather(7, n_layers=layers, drainage_mm_year=0.0)
    row = event(EventKind.ACID, 25.0 * 260.0, depth_cm=20.0, edges_cm=edges)
    result = run(soil(6.8, edges_cm=edges), still, days, [row], depth_cm=20.0)
    expected = ph_after_acid(
        6.8, 25.0, clay_pct=18.0, organic_carbon_pct=1.5, params=model.buffer_parameters()
    )
    assert result.ph[0] == pytest.approx([6.8, expected], abs=2e-3)
    assert result.end_ph[0] == pytest.approx([expected] * layers, abs=2e-3)


@pytest.mark.parametrize("coarse_class", range(N_LIME_CLASSES))
@pytest.mark.parametrize("on_surface", [False, True])
def test_lime_of_every_sieve_class_is_accounted_for(coarse_class: int, on_surface: bool) -> None:
    shares = tuple(float(i == coarse_class) for i in range(N_LIME_CLASSES))
    rows = [
        event(EventKind.LIME, 6000.0, depth_cm=0.0, lime_frac=shares, on_surface=on_surface),
        event(EventKind.TILLAGE, day=40),
    ]
    result = run(soil(5.0), members(), weather(90), rows)
    assert result.balance_error.max() < 1e-10
    assert result.end_ph[0, 0] > 5.0
    put_on = 6000.0 * members().lime_field_efficiency[0]
    as_stone = members(lime_half_time_d=1e12)
    waiting = run(soil(5.0), as_stone, weather(60), rows).lime_left_mmolc_m2[0]
    assert waiting == pytest.approx(put_on, rel=1e-6)
    assert result.lime_left_mmolc_m2[0] < put_on


# Events


def three(**changed: Any) -> ColumnEvents:
    """Events of one dose of acid whose fields are changed."""
    row = ColumnEvent(kind=EventKind.ACID, day=0, layer_share=(0.5, 0.25, 0.25), amount=1.0)
    return column_events([replace(row, **changed)], n_layers=3)


def test_events_are_put_in_order_and_those_of_one_day_left_in_theirs() -> None:
    rows = [event(EventKind.ACID, float(i), day=day) for i, day in enumerate((5, 2, 5, 0, 2))]
    events = column_events(rows, n_layers=3)
    assert events.day.tolist() == [0, 2, 2, 5, 5]
    assert events.amount.tolist() == [3.0, 1.0, 4.0, 0.0, 2.0]


def test_what_is_said_of_each_event_stands_in_its_row() -> None:
    rows = [
        sulfur(1.0, day=4, sizes=((10.0, 20.0, 0.25), (20.0, 20.0, 0.75)), rate_factor=0.5,
               grown_frac=0.7, intact_um=3000.0, break_up_top=(0.01, 0.6),
               break_up_dug_in=(0.002, 0.9), surface_cm2_mmolc=40.0),
        sulfur(2.0, day=3, sizes=((30.0, 40.0, 1.0),), grown_frac=0.2),
        event(EventKind.LIME, 7.0, day=2, depth_cm=0.0, lime_frac=(0.1, 0.2, 0.3, 0.4, 0.0),
              on_surface=True),
    ]  # fmt: skip
    events = column_events(rows, n_layers=3)
    assert events.kind.tolist() == [EventKind.LIME, EventKind.SULFUR, EventKind.SULFUR]
    assert events.on_surface.tolist() == [1.0, 0.0, 0.0]
    assert events.lime_frac.tolist()[0] == [0.1, 0.2, 0.3, 0.4, 0.0]
    assert events.lime_frac.shape == (3, N_LIME_CLASSES)
    assert events.layer_share.tolist()[0] == [1.0, 0.0, 0.0]
    assert events.layer_share[1] == pytest.approx([1 / 3, 2 / 3, 0.0])
    assert events.size_frac.tolist() == [[0.0, 0.0], [1.0, 0.0], [0.25, 0.75]]
    assert events.size_low_um.tolist()[1:] == [[30.0, 1.0], [10.0, 20.0]]
    assert events.size_high_um.tolist()[1:] == [[40.0, 1.0], [20.0, 20.0]]
    assert events.rate_factor.tolist() == [1.0, 1.0, 0.5]
    assert events.grown_frac.tolist() == [1.0, 0.2, 0.7]
    assert events.break_up_top.tolist()[2] == [0.01, 0.6]
    assert events.break_up_dug_in.tolist() == [[0.0, 0.0], [0.0, 0.0], [0.002, 0.9]]
    assert events.surface_cm2_mmolc.tolist() == [0.0, 0.0, 40.0]
    assert events.intact_um.tolist() == [0.0, 0.0, 3000.0]


def test_no_events_have_their_shapes_all_the_same() -> None:
    none = column_events([], n_layers=4)
    assert none.layer_share.shape == (0, 4)
    assert none.lime_frac.shape == (0, N_LIME_CLASSES)
    assert none.size_frac.shape == none.size_low_um.shape == none.size_high_um.shape == (0, 1)


@pytest.mark.parametrize(
    ("depth_cm", "shares"),
    [(0.0, (1.0, 0.0, 0.0)), (5.0, (1.0, 0.0, 0.0)), (15.0, (1 / 3, 2 / 3, 0.0)),
     (30.0, (1 / 6, 1 / 3, 1 / 2))],
)  # fmt: skip
def test_what_is_spread_to_a_depth_is_shared_by_thickness(
    depth_cm: float, shares: tuple[float, ...]
) -> None:
    assert shares_to_depth(EDGES_CM, depth_cm) == pytest.approx(shares)


def test_a_depth_that_is_no_edge_is_refused_with_the_edges() -> None:
    for depth_cm in (-5.0, 4.0, 31.0):
        with pytest.raises(OutOfRangeError, match=r"no edge of a layer \(0, 5, 15, 30 cm\)"):
            shares_to_depth(EDGES_CM, depth_cm)
    assert shares_to_depth((0.0, 20.0), 0.0) == shares_to_depth((0.0, 20.0), 20.0) == (1.0,)


def test_days_count_from_the_start() -> None:
    assert three(day=0).day.tolist() == [0]
    with pytest.raises(OutOfRangeError, match="acid on day -1"):
        three(day=-1)


@pytest.mark.parametrize(
    "shares", [(), (1.0,), (0.5, 0.5), (0.25,) * 4, (1.2, -0.2, 0.0), (0.0, -0.1, 1.1)]
)
def test_shares_of_other_layers_or_below_zero_are_refused(shares: tuple[float, ...]) -> None:
    with pytest.raises(InputError, match="one share of 0 or more for each of 3 layers"):
        three(layer_share=shares)
    with pytest.raises(InputError, match="tillage: give one share"):
        three(kind=EventKind.TILLAGE, layer_share=shares)


def test_shares_add_to_one_except_of_layers_that_are_mixed() -> None:
    for shares in ((0.5, 0.5, 0.5), (0.5, 0.25, 0.0), (0.0, 0.0, 0.0)):
        with pytest.raises(InputError, match="acid: layer_share adds to"):
            three(layer_share=shares)
        tilled = three(kind=EventKind.TILLAGE, layer_share=shares)
        assert tuple(tilled.layer_share[0]) == shares


@pytest.mark.parametrize("kind", sorted(set(EventKind) - {EventKind.TILLAGE, EventKind.SULFUR}))
def test_only_acid_and_decay_may_be_negative(kind: EventKind) -> None:
    assert three(kind=kind, amount=0.0).amount.tolist() == [0.0]
    if kind in (EventKind.ACID, EventKind.DECAY):
        assert three(kind=kind, amount=-3.0).amount.tolist() == [-3.0]
    else:
        with pytest.raises(OutOfRangeError, match=f"{kind.name.lower()}: amount -1e-09"):
            three(kind=kind, amount=-1e-9)
    for amount in (np.nan, np.inf, -np.inf):
        with pytest.raises(OutOfRangeError, match="must be a number of 0 or more"):
            three(kind=kind, amount=amount)


@pytest.mark.parametrize(
    "shares",
    [(1.0,), (0.5, 0.5, 0.0, 0.0), (0.25, 0.25, 0.25, 0.25, 0.0, 0.0), (1.1, -0.1, 0.0, 0.0, 0.0),
     (0.0, 0.0, 0.0, 1.1, -0.1), (0.5, 0.3, 0.0, 0.0, 0.0), (0.5, 0.3, 0.3, 0.0, 0.0)],
)  # fmt: skip
def test_lime_that_is_not_five_shares_of_one_is_refused(shares: tuple[float, ...]) -> None:
    with pytest.raises(InputError, match="must be five shares that add to 1"):
        three(kind=EventKind.LIME, lime_frac=shares)
    assert three(kind=EventKind.ACID, lime_frac=(0.5, 0.3, 0.2, 0.0, 0.0)).amount.size == 1


@pytest.mark.parametrize("share", [(0.9, 0.1, 0.0), (0.9, 0.0, 0.1), (0.0, 0.5, 0.5)])
def test_lime_left_on_top_lies_in_the_first_layer_alone(share: tuple[float, ...]) -> None:
    top = three(kind=EventKind.LIME, layer_share=(1.0, 0.0, 0.0), on_surface=True)
    assert top.on_surface.tolist() == [1.0]
    assert three(kind=EventKind.LIME, layer_share=share).on_surface.tolist() == [0.0]
    with pytest.raises(InputError, match="in the first layer only"):
        three(kind=EventKind.LIME, layer_share=share, on_surface=True)


@pytest.mark.parametrize(
    "sizes",
    [
        ((0.001, 20000.0, 1.0),),
        ((75.0, 75.0, 1.0),),
        ((10.0, 75.0, 0.0), (75.0, 150.0, 1.0)),
    ],
)
def test_grains_of_sulfur_at_the_limits_are_let_through(
    sizes: tuple[tuple[float, float, float], ...],
) -> None:
    assert column_events([sulfur(1.0, sizes=sizes)], n_layers=3).size_frac.sum() == 1.0


@pytest.mark.parametrize(
    "size",
    [(0.0, 75.0, 1.0), (-1.0, 75.0, 1.0), (75.0, 10.0, 1.0), (10.0, 20001.0, 1.0),
     (10.0, 75.0, -0.1), (10.0, 75.0, 1.1), (np.nan, 75.0, 1.0), (10.0, 75.0, np.nan)],
)  # fmt: skip
def test_grains_of_sulfur_that_cannot_be_are_refused(size: tuple[float, float, float]) -> None:
    with pytest.raises(OutOfRangeError, match=r"needs 0 < lower <= upper <= 20000"):
        column_events([sulfur(1.0, sizes=(size,))], n_layers=3)


@pytest.mark.parametrize("whole", [0.0, 0.9, 0.99999, 1.00001, 1.9])
def test_shares_of_grains_that_do_not_add_to_one_are_refused(whole: float) -> None:
    sizes = ((10.0, 75.0, 0.5 * whole), (75.0, 150.0, 0.5 * whole))
    with pytest.raises(InputError, match="shares of its size classes must add up to 1"):
        column_events([sulfur(1.0, sizes=sizes)], n_layers=3)


def test_sulfur_without_grains_is_refused() -> None:
    with pytest.raises(InputError, match="shares of its size classes must add up to 1"):
        column_events([sulfur(1.0, sizes=())], n_layers=3)


@pytest.mark.parametrize(
    ("name", "edge", "beyond"),
    [
        ("rate_factor", 0.0, -0.01),
        ("surface_cm2_mmolc", 0.0, -1.0),
        ("intact_um", 0.0, -1.0),
    ],
)
def test_factors_of_sulfur_are_not_negative(name: str, edge: float, beyond: float) -> None:
    changed: dict[str, Any] = {name: edge}
    events = column_events([sulfur(1.0, **changed)], n_layers=3)
    assert getattr(events, name).tolist() == [edge]
    for bad in (beyond, np.nan):
        changed = {name: bad}
        with pytest.raises(OutOfRangeError, match="must not be negative"):
            column_events([sulfur(1.0, **changed)], n_layers=3)


def test_oxidisers_are_a_share_above_nothing() -> None:
    assert column_events([sulfur(1.0, grown_frac=1.0)], n_layers=3).grown_frac.tolist() == [1.0]
    for bad in (0.0, 1.01, np.nan):
        with pytest.raises(OutOfRangeError, match="grown_frac"):
            column_events([sulfur(1.0, grown_frac=bad)], n_layers=3)


# Soil, members and weather


@pytest.mark.parametrize(
    "edges", [(1.0, 5.0, 15.0, 30.0), (-1.0, 5.0, 15.0, 30.0), (0.0, 5.0, 5.0, 30.0),
              (0.0, 15.0, 5.0, 30.0), (0.0, 5.0, 30.0, 15.0), (0.0, 5.0, 15.0, np.nan)],
)  # fmt: skip
def test_layers_go_down_from_the_surface(edges: tuple[float, ...]) -> None:
    with pytest.raises(InputError, match="must rise from 0"):
        replace(soil(), edges_cm=np.array(edges))


def test_thin_layers_of_light_peat_are_let_through() -> None:
    peat = soil(5.0, edges_cm=(0.0, 0.5, 1.0, 15.0), bulk_density_g_cm3=0.08)
    assert peat.mass_kg_m2 == pytest.approx([0.4, 0.4, 11.2])
    assert run(peat, members(), DAY, depth_cm=1.0).ph[0, 0] == pytest.approx(5.0, abs=1e-6)


def test_a_soil_without_a_layer_is_refused() -> None:
    nothing = np.zeros(0)
    with pytest.raises(InputError, match="at least one layer"):
        replace(
            soil(),
            edges_cm=np.zeros(1),
            mass_kg_m2=nothing,
            start_ph=nothing,
            carbonate_mmolc_m2=nothing,
        )


def test_one_layer_without_mass_or_with_negative_lime_is_refused() -> None:
    the_soil = soil(carbonate_pct=0.1)
    for mass in (0.0, -1.0, np.nan):
        with pytest.raises(OutOfRangeError, match="mass_kg_m2 must be above 0"):
            replace(the_soil, mass_kg_m2=one_bad(the_soil.mass_kg_m2, mass))
    for lime in (-1e-9, np.nan):
        with pytest.raises(OutOfRangeError, match="carbonate_mmolc_m2 must be 0 or more"):
            replace(the_soil, carbonate_mmolc_m2=one_bad(the_soil.carbonate_mmolc_m2, lime))
    bare = replace(the_soil, carbonate_mmolc_m2=one_bad(the_soil.carbonate_mmolc_m2, 0.0))
    assert bare.carbonate_mmolc_m2[-1] == 0.0


def test_a_soil_starts_between_the_ends_of_its_curve() -> None:
    the_soil = soil()
    for ph in (2.001, 9.499):
        assert soil(ph).start_ph.tolist() == [ph] * 3
        assert replace(the_soil, start_ph=one_bad(the_soil.start_ph, ph)).start_ph[-1] == ph
    for ph in (1.9, 2.0, 9.5, 9.6, np.nan):
        with pytest.raises(OutOfRangeError, match=r"must lie between 2 and 9\.5"):
            replace(the_soil, start_ph=one_bad(the_soil.start_ph, ph))


@pytest.mark.parametrize("name", [field.name for field in fields(ColumnSoil)])
def test_an_array_of_a_soil_of_another_length_is_refused(name: str) -> None:
    whole = replace(soil(), own_lime_mmolc_m2=np.zeros((3, 2)))
    values = getattr(whole, name)
    for bad in (values[:-1], np.append(values, values[-1] + 1.0)):
        with pytest.raises(InputError, match="has shape"):
            replace(soil(), **{name: bad})
    if name not in ("mass_kg_m2", "curve_ph"):
        with pytest.raises(InputError, match="kind float32"):
            replace(soil(), **{name: values.astype(np.float32)})


@pytest.mark.parametrize("name", MEMBER_FIELDS)
def test_every_parameter_of_a_member_has_its_sign(name: str) -> None:
    pair = members(2)
    values = getattr(pair, name)

    def with_last(value: float) -> MemberParameters:
        return replace(pair, **{name: one_bad(values, value)})

    for bad in (np.nan, np.inf, -np.inf):
        with pytest.raises(OutOfRangeError, match=f"{name} holds a value that is no number"):
            with_last(bad)
    if name in SIGNED_MEMBER_FIELDS:
        assert getattr(with_last(-0.1), name)[-1] == -0.1
    else:
        with pytest.raises(OutOfRangeError, match=f"{name} must be 0 or more in every member"):
            with_last(-1e-9)
    if name in POSITIVE_MEMBER_FIELDS:
        with pytest.raises(OutOfRangeError, match=f"{name} must be above 0 in every member"):
            with_last(0.0)
    else:
        assert getattr(with_last(0.0), name)[-1] == 0.0
    for shape in (values[:1], values[None, :]):
        if name != "log10_k":
            with pytest.raises(InputError, match=f"{name} has shape"):
                replace(pair, **{name: shape})


@pytest.mark.parametrize(
    ("name", "inside", "outside", "said"),
    [
        ("soil_temp_c", (-60.0, 70.0), (-60.1, 70.1, 273.15, np.nan), "between -60 and 70"),
        ("wetness", (0.0, 3.0), (-0.001, 3.001, 60.0, np.nan), "between 0 and 3"),
        ("drainage_mm", (0.0, 500.0), (-0.001, np.nan, np.inf), "drainage_mm must be 0 or more"),
        ("irrigation_mm", (0.0, 90.0), (-0.001, np.nan, np.inf), "irrigation_mm must be 0 or"),
    ],
)
def test_weather_that_cannot_be_on_one_day_is_refused(
    name: str, inside: tuple[float, ...], outside: tuple[float, ...], said: str
) -> None:
    values = getattr(DAY, name)
    changed: dict[str, Any]
    for value in inside:
        changed = {name: one_bad(values, value)}
        assert getattr(replace(DAY, **changed), name).flat[-1] == value
    for value in outside:
        changed = {name: one_bad(values, value)}
        with pytest.raises(OutOfRangeError, match=said):
            replace(DAY, **changed)


@pytest.mark.parametrize(
    ("name", "inside", "outside"),
    [
        ("alkalinity_mmolc_l", (-1.0, 0.0, 12.0), (np.nan, np.inf, -np.inf)),
        ("leaching_factor", (0.0, 1.5), (-0.001, np.nan)),
    ],
)
def test_water_of_no_possible_kind_is_refused(
    name: str, inside: tuple[float, ...], outside: tuple[float, ...]
) -> None:
    changed: dict[str, Any]
    for value in inside:
        changed = {name: value}
        assert getattr(replace(DAY, **changed), name) == value
    for value in outside:
        changed = {name: value}
        with pytest.raises(OutOfRangeError, match="is no possible number"):
            replace(DAY, **changed)


def test_days_and_layers_of_the_weather_agree() -> None:
    temp, wet = DAY.soil_temp_c, DAY.wetness
    with pytest.raises(InputError, match="one row per day and one column per layer"):
        replace(DAY, soil_temp_c=temp[:, 0], wetness=wet[:, 0])
    with pytest.raises(InputError, match="soil_temp_c has shape"):
        replace(DAY, soil_temp_c=temp[:2], wetness=wet[:2])
    with pytest.raises(InputError, match="wetness has shape"):
        replace(DAY, wetness=wet[:, :2])
    with pytest.raises(InputError, match="irrigation_mm has shape"):
        replace(DAY, irrigation_mm=DAY.irrigation_mm[:2])
    with pytest.raises(InputError, match="kind float32"):
        replace(DAY, irrigation_mm=DAY.irrigation_mm.astype(np.float32))
    assert DAY.n_days == 3


# What the kernel is handed


def test_the_days_factors_are_those_of_the_laws_of_sulfur_and_nitrogen() -> None:
    temp = np.array([-10.0, 0.0, 0.1, 2.9, 3.0, 5.0, 10.0, 25.0, 30.0, 32.0, 35.0, 36.0, 40.0,
                     42.5, 45.0, 49.0, 50.0, 55.0, 65.0])  # fmt: skip
    days = temperatures(temp)
    inverse, heat, nitrification, urea, warm, rotting, same = climate_array(days, laws())[:, 0].T
    assert np.array_equal(same, temp)
    sulfur_params, nitrogen = model.sulfur_parameters(), model.nitrogen_parameters()
    energy = sulfur_params.activation_energy_kj_mol
    ramp = np.clip((temp - sulfur_params.ramp_from_c) / sulfur_params.ramp_width_c, 0.0, 1.0)
    assert np.exp(energy * inverse) * heat * ramp == pytest.approx(
        temperature_factor(temp, sulfur_params), rel=1e-12
    )
    at_ph_7 = nitrification_rate_per_d(temp, ph_water=7.0, params=nitrogen)
    assert nitrification * nitrogen.nitrification_rate_per_d == pytest.approx(at_ph_7, rel=1e-12)
    made = urea_rate_per_d(temp, params=nitrogen)
    assert urea * nitrogen.urea_rate_per_d == pytest.approx(made, rel=1e-12)
    assert warm.tolist() == (temp > 0.0).astype(float).tolist()
    assert water_array(days)[:, 3].tolist() == [0.7] * temp.size
    at_2 = [0.0 if t <= 0.0 else 2.0 ** ((t - 10.0) / 10.0) for t in temp]
    assert rotting.tolist() == pytest.approx(at_2)


def temperatures(temp_c: FloatArray) -> ColumnWeather:
    """Days of these temperatures in one layer."""
    nothing = np.zeros(temp_c.size)
    return ColumnWeather(
        soil_temp_c=temp_c[:, None],
        wetness=np.full((temp_c.size, 1), 0.7),
        drainage_mm=nothing,
        irrigation_mm=nothing,
        alkalinity_mmolc_l=0.0,
        leaching_factor=1.0,
    )


def test_the_yearly_load_fades_with_depth_and_cutting_a_layer_changes_nothing() -> None:
    whole = layer_array(soil(), laws())
    finer = layer_array(soil(edges_cm=(0.0, 5.0, 10.0, 15.0, 30.0)), laws())
    assert whole[:, 3].sum() == pytest.approx(1.0)
    assert finer[1, 3] + finer[2, 3] == pytest.approx(whole[1, 3], rel=1e-12)
    assert finer[2, 3] / finer[1, 3] == pytest.approx(
        np.exp(-5.0 / laws().root_depth_cm), rel=1e-12
    )
    assert whole[:, 0].tolist() == [65.0, 130.0, 195.0]
    assert whole[:, 1].tolist() == [6.5] * 3
    limy = layer_array(soil(carbonate_pct=0.5), laws())
    assert limy[:, 2] == pytest.approx(100.0 * whole[:, 0])


def test_a_layer_with_figures_of_its_own_is_marked_and_its_lime_is_not_negative() -> None:
    own = np.array([[np.nan, np.nan], [0.0, 0.0], [30.0, 10.0]])
    rows = layer_array(replace(soil(), own_lime_mmolc_m2=own), laws())
    assert rows[:, 5:].tolist() == [[0.0, 0.0, 0.0], [0.0, 0.0, 1.0], [30.0, 10.0, 1.0]]
    assert layer_array(soil(), laws())[:, 5:].tolist() == [[0.0] * 3] * 3
    with pytest.raises(OutOfRangeError, match="own_lime_mmolc_m2"):
        replace(soil(), own_lime_mmolc_m2=-own)


def test_the_curve_is_handed_on_in_its_parts() -> None:
    the_soil = soil()
    organic, rest, solution = curve_array(the_soil).T
    first, step = curve_ends(the_soil)
    assert first + step * np.arange(organic.size) == pytest.approx(the_soil.curve_ph, abs=1e-12)
    assert np.array_equal(organic, the_soil.organic_mmolc_kg)
    assert np.array_equal(rest, the_soil.rest_mmolc_kg)
    assert np.array_equal(solution, the_soil.solution_mmolc_kg)


def test_the_points_of_a_curve_are_equally_far_apart() -> None:
    the_soil = soil()
    with pytest.raises(InputError, match="equal steps"):
        replace(the_soil, curve_ph=the_soil.curve_ph**1.01)


def test_water_of_a_day_is_what_drains_and_the_base_it_brings() -> None:
    days = replace(
        DAY,
        drainage_mm=np.array([0.0, 5.0, 7.0]),
        irrigation_mm=np.array([3.0, 0.0, 2.0]),
        alkalinity_mmolc_l=4.0,
    )
    wet = days.wetness[0].tolist()
    assert water_array(days).tolist() == [
        [0.0, 12.0, 0.0, *wet],
        [5.0, 0.0, 0.0, *wet],
        [7.0, 8.0, 0.0, *wet],
    ]


def test_doses_of_sulfur_are_counted_and_other_events_have_none() -> None:
    rows = [
        event(EventKind.UREA, 5.0, day=1),
        sulfur(1.0, day=2),
        event(EventKind.LIME, 6.0, day=3, depth_cm=0.0, lime_frac=(0.1, 0.2, 0.3, 0.4, 0.0),
              on_surface=True),
        sulfur(2.0, day=4),
    ]  # fmt: skip
    when, amounts = event_arrays(column_events(rows, n_layers=3))
    assert when.tolist() == [[1, 8, -1], [2, 0, 0], [3, 10, -1], [4, 0, 1]]
    assert amounts.shape == (4, 8 + 3)
    assert amounts[2].tolist() == [6.0, 1.0, 1.0, 0.1, 0.2, 0.3, 0.4, 0.0, 1.0, 0.0, 0.0]


def test_the_laws_are_those_of_their_topics() -> None:
    """Those of the column first; the sieve classes of lime are numbered as their half-times are."""
    column = parameter_values("column") | {"ramp_width_c": 3.0}
    buffer, sulfur_params, lime = (
        model.buffer_parameters(),
        model.sulfur_parameters(),
        model.lime_parameters(),
    )
    found = column_laws(
        column=column,
        buffer=buffer,
        sulfur=sulfur_params,
        nitrogen=model.nitrogen_parameters(),
        lime=lime,
        ledger=model.ledger_parameters(),
        nitrate_uptake_half_time_d=33.0,
    )
    assert found.ramp_width_c == 3.0
    assert found.flat_from_c == sulfur_params.flat_from_c
    assert found.nitrification_q10 == model.nitrogen_parameters().nitrification_q10
    assert found.background_reference_ph == model.ledger_parameters().background_reference_ph
    assert found.bicarbonate_log10_k == buffer.bicarbonate_log10_k
    assert found.root_depth_cm == column["root_depth_cm"]
    assert found.lime_class_factor_5 == lime.half_time_factor_5
    assert found.nitrate_uptake_half_time_d == 33.0
    assert found.al_highest_mmolc_l * buffer.solution_l_kg == column["al_highest_mmolc_kg"]


def test_every_number_stands_where_its_name_says() -> None:
    values = law_array(laws())
    assert values.size == len(LAW_FIELDS) == rate(RATE_FIELDS[0]) // LANES
    after = [rate(name) // LANES - len(LAW_FIELDS) for name in RATE_FIELDS]
    assert after == list(range(len(RATE_FIELDS)))
    for name in LAW_FIELDS:
        assert values[law(name) // LANES] == getattr(laws(), name)
    the_members = members(3, seed=4)
    table = member_array(the_members)
    for name in MEMBER_FIELDS:
        assert np.array_equal(table[:, member(name)], getattr(the_members, name))


def test_everything_in_a_year_keeps_the_balance_in_a_column_cut_finer() -> None:
    edges = (0.0, 5.0, 10.0, 15.0, 30.0)
    rows = [replace(row, layer_share=finer(row.layer_share)) for row in everything()]
    result = run(
        soil(edges_cm=edges), members(3, seed=2), weather(n_layers=4, drainage_mm_year=300.0), rows
    )
    assert result.balance_error.max() < 1e-10
    assert result.end_ph.shape == (3, 4)


def finer(shares: tuple[float, ...]) -> tuple[float, ...]:
    """Shares of three layers as those of four, the second cut in halves (a mixed layer as well)."""
    top, middle, low = shares
    return top, 0.5 * middle, 0.5 * middle, low


@pytest.mark.parametrize("kind", [np.float32, np.int64])
@pytest.mark.parametrize("name", ["mass_kg_m2", "curve_ph"])
def test_arrays_of_a_soil_are_of_one_kind(name: str, kind: type) -> None:
    the_soil = soil(6.5)
    with pytest.raises(InputError, match=name):
        replace(the_soil, **{name: getattr(the_soil, name).astype(kind)})
