"""The acid of nitrogen is the same in the yearly ledger and in the beds of the forecast."""

from __future__ import annotations

import numpy as np
import pytest

from loamshift.case.read import parse_case
from loamshift.core.nitrogen_share import nitrogen_shares
from loamshift.domain.case import Feed
from loamshift.services.belief.possible_beds import draw_members_of
from loamshift.services.context.build_context import build_context, require_soil
from loamshift.services.materials.feed import present_feed_acid_mmolc_m2
from loamshift.tables.model import ledger_parameters

HEAD = 'case = 1\ntoday = 2026-04-12\n[place]\nname = "Manchester"\n'
SOIL = '[soil]\nph = 6.0\nph_method = "water 1:2.5"\ntexture = "loam"\norganic_matter_pct = 3\n'
AIM = "[aim]\ntarget_ph = 6\n"
BEDS = {
    "planted": 'kind = "ground"\narea = "10 m2"\nplanted = true\n',
    "bare": 'kind = "ground"\narea = "10 m2"\nplanted = false\n',
    "lawn": 'kind = "lawn"\narea = "10 m2"\n',
    "pot": 'kind = "container"\narea = "0.1 m2"\ndepth = "30 cm"\n',
}


@pytest.mark.parametrize("bed", BEDS)
@pytest.mark.parametrize(
    ("form", "made"), [("ammonium", 2.0), ("urea", 1.0), ("ammonium nitrate", 1.0), ("nitrate", 0)]
)
def test_ledger_and_forecast_count_the_same_acid(bed: str, form: str, made: float) -> None:
    soil = SOIL
    if bed == "pot":
        soil = '[soil]\nph = 5.5\nph_method = "water 1:5"\nmedium = "peat mix"\n'
    context = build_context(parse_case(f"{HEAD}[bed]\n{BEDS[bed]}{soil}{AIM}"))
    drawn = draw_members_of(context, (), soil=require_soil(context), members=400, seed=1)
    realised, base = drawn.parameters.realised_frac, drawn.parameters.nitrate_uptake_mol_mol
    shares = nitrogen_shares(
        ledger_parameters(), land_use=context.nitrogen_use, in_pot=context.in_pot
    )
    # a middle below 1 stays the middle; one at the end of its range lies a little above it
    assert np.median(realised) == pytest.approx(shares.realised, abs=0.12)
    assert np.median(1.0 - base / realised) == pytest.approx(shares.unreturned, abs=0.05)
    told = present_feed_acid_mmolc_m2(
        Feed(n_g_m2_year=14.007, form=form), in_pot=context.in_pot, land_use=context.nitrogen_use
    )
    acid = shares.realised * (made - (1.0 - shares.unreturned))
    assert told == pytest.approx(1000.0 * acid)
