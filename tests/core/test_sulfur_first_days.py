"""What each bed draws of the first days of sulfur: the cold it needs, and its first oxidisers."""

from __future__ import annotations

import numpy as np
import pytest

from core.column_cases import members, run, soil, sulfur, weather
from loamshift.core.column_events import column_events
from loamshift.errors import OutOfRangeError
from loamshift.services.belief.column_parts import grown_log_odds_sd
from loamshift.tables.parameters import load_parameters

ROWS = load_parameters()["sulfur"]


@pytest.mark.parametrize(
    ("name", "before"), [("grown_first_frac", False), ("grown_again_frac", True)]
)
def test_a_bed_two_deviations_out_starts_at_the_end_of_the_range(name: str, before: bool) -> None:
    """The ends of the row are the central 95 %; the log odds are taken as even to both sides."""
    row = ROWS[name]
    assert row.low is not None and row.high is not None
    sd = grown_log_odds_sd(sulfur_before=before)
    days = weather(120)
    for z, end in ((-1.96, row.low), (1.96, row.high)):
        drawn = run(
            soil(),
            members(1, sulfur_grown_z=z),
            days,
            [sulfur(60.0, grown_frac=row.value, grown_sd=sd)],
        )
        low, high = (
            run(soil(), members(1), days, [sulfur(60.0, grown_frac=frac)]).oxidised_frac[0, 3]
            for frac in (0.6 * end, min(0.99, 1.6 * end))
        )
        assert low < drawn.oxidised_frac[0, 3] < high


def test_a_middling_bed_starts_as_told() -> None:
    told = run(soil(), members(1), weather(60), [sulfur(60.0, grown_frac=0.2)])
    drawn = run(soil(), members(1), weather(60), [sulfur(60.0, grown_frac=0.2, grown_sd=0.75)])
    assert np.allclose(told.ph, drawn.ph, atol=1e-12)


def test_where_all_are_grown_there_is_nothing_to_draw() -> None:
    for bad in (-0.1, 0.5):
        with pytest.raises(OutOfRangeError, match="grown_sd"):
            column_events([sulfur(60.0, grown_frac=1.0, grown_sd=bad)], n_layers=3)


def test_soil_of_two_degrees_oxidises_where_the_ramp_begins_below_it_and_not_above() -> None:
    cold = weather(90, mean_c=2.0, swing_c=0.0)
    found = [
        run(soil(), members(1, sulfur_ramp_from_c=start), cold, [sulfur(60.0)]).oxidised_frac[0, -1]
        for start in (-1.0, 1.5, 2.0, 4.0)
    ]
    assert found[0] > found[1] > 0.0
    assert found[2] == found[3] == 0.0


def test_a_block_of_beds_has_each_its_own_ramp() -> None:
    """One warm enough among those too cold: none is left out for its neighbours."""
    cold = weather(60, mean_c=2.0, swing_c=0.0)
    many = members(3)
    many.sulfur_ramp_from_c[:] = (4.0, -1.0, 3.0)
    found = run(soil(), many, cold, [sulfur(60.0)]).oxidised_frac[:, -1]
    alone = run(soil(), members(1, sulfur_ramp_from_c=-1.0), cold, [sulfur(60.0)])
    assert found[0] == found[2] == 0.0
    assert found[1] == alone.oxidised_frac[0, -1] > 0.0
