from __future__ import annotations

import pytest

from loamshift.errors import InputError, OutOfRangeError
from loamshift.services.water.tank import fill_tank
from loamshift.services.water.treat import treat_water

WATER = treat_water(alkalinity_mg_l_as_caco3=180.0)


def test_a_tank_takes_its_share_and_the_stock_does_not_change() -> None:
    small, large = (fill_tank(WATER, tank_l=size, acid="citric") for size in (50.0, 500.0))
    assert small.chosen is not None and large.chosen is not None
    assert large.chosen.amount.mid == pytest.approx(10.0 * small.chosen.amount.mid)
    assert small.stock_per_l == large.stock_per_l
    assert fill_tank(WATER).doses == WATER.products


@pytest.mark.parametrize("name", ["Sulphuric acid, 93%", "sulfuric 93", "SULFURIC ACID 93 %"])
def test_an_acid_is_found_however_it_is_spelt(name: str) -> None:
    chosen = fill_tank(WATER, acid=name).chosen
    assert chosen is not None and chosen.product == "sulfuric acid 93 %"


@pytest.mark.parametrize("name", ["sulfuric", "vinegar", "", " acid "])
def test_an_acid_that_is_none_or_several_is_asked_again(name: str) -> None:
    with pytest.raises(InputError, match="acid"):
        fill_tank(WATER, acid=name)


@pytest.mark.parametrize("tank_l", [0.0, -1.0, 1e9, float("nan")])
def test_a_tank_without_a_size_is_refused(tank_l: float) -> None:
    with pytest.raises(OutOfRangeError):
        fill_tank(WATER, tank_l=tank_l)


def test_a_soft_water_gets_nothing() -> None:
    soft = treat_water(alkalinity_mg_l_as_caco3=20.0)
    tank = fill_tank(soft, acid="citric")
    assert tank.doses == () and tank.chosen is None and tank.steps == ()
