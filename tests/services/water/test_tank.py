from __future__ import annotations

import pytest

from loamshift.errors import InputError, OutOfRangeError
from loamshift.services.water.tank import fill_tank
from loamshift.services.water.treat import treat_water
from wording import read

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


def test_a_water_of_low_alkalinity_gets_nothing() -> None:
    low = treat_water(alkalinity_mg_l_as_caco3=20.0)
    tank = fill_tank(low, acid="citric")
    assert tank.doses == () and tank.chosen is None and tank.steps == ()


def test_every_acid_has_a_name_and_its_dose_is_told_in_ml_or_g_everywhere() -> None:
    for dose in fill_tank(WATER, tank_l=1000.0).doses:
        name = read(dose.called)
        assert name.split()[0][:4] == dose.product.split()[0].replace("sulfu", "sulphu")[:4]
        exact = read(dose.said)
        assert exact.endswith(f" {dose.unit}")
        assert read(dose.said, units="us").endswith(f"({exact})")


def test_crystals_are_weighed_and_liquids_measured() -> None:
    dry, wet = (fill_tank(WATER, acid=acid) for acid in ("citric", "sulfuric 93"))
    assert [step.key for step in dry.steps[2:4]] == ["water-step-weigh", "water-step-stir-in"]
    assert [step.key for step in wet.steps[2:4]] == ["water-step-measure", "water-step-pour"]
    assert wet.chosen is not None
    assert f"**{read(wet.chosen.said)}** of sulphuric acid 93%" in read(wet.steps[2])
    assert "the acid you chose" in read(fill_tank(WATER).steps[2])
