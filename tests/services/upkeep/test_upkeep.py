from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date

import pytest

from loamshift.domain.answer import Ledger, Upkeep
from loamshift.domain.case import Applied, Bed, BedKind, Case, Feed, Water
from loamshift.domain.message import Message, Prose, Worded
from loamshift.services.context.build_context import build_context
from loamshift.services.materials.feed import present_feed_acid_mmolc_m2
from loamshift.services.upkeep.upkeep import LINES, upkeep
from loamshift.services.verdict.decide import decide
from loamshift.tables.materials import load_materials
from wording import read

MATERIALS = load_materials()
PLANTED = Bed(area_m2=20.0, depth_cm=15.0, planted=True)
HARD = Water(alkalinity_mg_l_as_caco3=250.0, weekly_mm=550.0 / 20.0)
MIDDLING = Water(alkalinity_mg_l_as_caco3=250.0, weekly_mm=12.0)
SOFT = Water(alkalinity_mg_l_as_caco3=60.0, weekly_mm=10.0)
Make = Callable[..., Case]


def judged_upkeep(case: Case) -> tuple[Ledger | None, Upkeep | None]:
    context = build_context(case)
    return upkeep(context, decide(context).judged)


def held(case: Case) -> tuple[Ledger, Upkeep]:
    ledger, keeping = judged_upkeep(case)
    assert ledger is not None and keeping is not None
    return ledger, keeping


def lines(ledger: Ledger) -> dict[str, float]:
    """Values by the keys of their names, without the ``ledger-`` before them."""
    return {_key(line.name): line.value for line in ledger.lines}


def _key(name: Worded) -> str:
    assert isinstance(name, Message)
    return name.key.removeprefix("ledger-")


def remarks(keeping: Upkeep) -> list[str]:
    """What stands under the upkeep, by its keys."""
    assert isinstance(keeping.comment, Prose)
    return [one.key.removeprefix("upkeep-") for one in keeping.comment.sentences]


def blueberries(bed_case: Make, **more: object) -> Case:
    return bed_case(6.5, target=None, plant="highbush blueberry", **({"bed": PLANTED} | more))


def test_hard_water_that_no_sulfur_outruns_leaves_a_ledger_and_no_upkeep(bed_case: Make) -> None:
    ledger, keeping = judged_upkeep(blueberries(bed_case, water=HARD))
    assert ledger is not None and keeping is None
    water = lines(ledger)["irrigation-water"]
    assert water == pytest.approx(-250.0 / 50.045 * 27.5 * 365.25 / 84.0 * 5.0, rel=1e-3)
    assert ledger.net < -0.8 * abs(water)


def test_where_the_water_is_to_be_treated_no_sulfur_holds_the_ph(bed_case: Make) -> None:
    case = bed_case(6.0, target=None, plant="highbush blueberry", bed=PLANTED, water=MIDDLING)
    ledger, keeping = held(case)
    assert ledger.net < 0.0 < keeping.drift_ph_year
    assert keeping.sulfur_as_s_g_m2_year == keeping.lime_as_caco3_g_m2_year == 0.0
    assert "water-treated" in remarks(keeping)
    assert keeping.years_water_undoes_dose is not None
    assert 1.5 < keeping.years_water_undoes_dose < 6.0
    assert [line.material for line in keeping.feed] == ["ammonium sulfate"]
    assert keeping.nitrogen_needed_g_m2_year == pytest.approx(9.3)


def test_the_ledger_adds_up(bed_case: Make) -> None:
    water = Water(alkalinity_mg_l_as_caco3=100.0, weekly_mm=10.0)
    ledger, keeping = held(blueberries(bed_case, water=water))
    assert ledger.net == pytest.approx(sum(line.value for line in ledger.lines))
    alone = ledger.net
    feed = sum(line.acid_mmolc_m2_year for line in keeping.feed)
    assert feed > 0.0
    assert keeping.net_with_feed_mmolc_m2_year == pytest.approx(alone + feed)
    for line in keeping.feed:
        assert line.rate_g_m2_year * MATERIALS[line.material].n_frac == pytest.approx(
            line.n_g_m2_year
        )


def test_a_mixed_feed_balances_soft_water(bed_case: Make) -> None:
    _, keeping = held(blueberries(bed_case, water=SOFT))
    assert keeping.net_with_feed_mmolc_m2_year == pytest.approx(0.0, abs=0.5)
    assert keeping.sulfur_as_s_g_m2_year == keeping.lime_as_caco3_g_m2_year == 0.0
    assert {line.material for line in keeping.feed} == {"ammonium sulfate", "urea"}


def test_below_ph_5_urea_takes_the_place_of_ammonium_sulfate(bed_case: Make) -> None:
    case = bed_case(6.0, target=4.6, bed=PLANTED, feed=Feed(n_g_m2_year=8.0, form="ammonium"))
    _, keeping = held(case)
    assert [line.material for line in keeping.feed] == ["urea"]
    assert "urea-until-then" in remarks(keeping)


def test_lime_hating_plants_get_no_nitrate_and_lime_only_by_test(bed_case: Make) -> None:
    case = bed_case(5.0, target=None, plant="highbush blueberry", bed=PLANTED)
    _, keeping = held(replace(case, feed=Feed(n_g_m2_year=20.0, form="ammonium")))
    assert keeping.drift_ph_year < 0.0 < keeping.lime_as_caco3_g_m2_year
    assert "lime-by-test" in remarks(keeping)
    _, nitrate = held(replace(case, feed=Feed(n_g_m2_year=9.0, form="nitrate")))
    assert all("nitrate" not in line.material for line in nitrate.feed)
    assert "nitrate" in remarks(nitrate)


def test_what_is_brought_down_gets_no_lime_to_hold_it(bed_case: Make) -> None:
    _, keeping = held(blueberries(bed_case, feed=Feed(n_g_m2_year=9.0, form="ammonium")))
    assert keeping.drift_ph_year < 0.0 and keeping.net_with_feed_mmolc_m2_year > 0.0
    assert keeping.lime_as_caco3_g_m2_year == 0.0
    assert "falls" in remarks(keeping)


def test_other_plants_may_have_nitrate_against_a_falling_ph(bed_case: Make) -> None:
    _, keeping = held(bed_case(6.5, target=6.5, feed=Feed(n_g_m2_year=5.0, form="ammonium")))
    assert [line.material for line in keeping.feed] == ["calcium nitrate"]
    assert keeping.drift_ph_year < 0.0


def test_unknown_nitrogen_is_asked_for_and_nothing_is_fed(bed_case: Make) -> None:
    _, keeping = held(bed_case(6.5, target=6.5))
    assert keeping.feed == () and keeping.nitrogen_needed_g_m2_year is None
    assert "nitrogen-unknown" in remarks(keeping)
    assert keeping.lime_as_caco3_g_m2_year > 0.0


def test_earlier_sulfur_is_a_line_but_no_upkeep(bed_case: Make) -> None:
    sulfur = MATERIALS["elemental sulfur, powder"]
    applied = Applied(on=date(2026, 3, 1), material=sulfur, rate_g_m2=90.0, as_given="")
    ledger, keeping = held(bed_case(applied=(applied,)))
    bare, plain = held(bed_case())
    assert 0.0 < lines(ledger)["sulfur-of-earlier-years"] < 90.0 * 0.99 / 0.01603
    assert "sulfur-of-earlier-years" not in lines(bare)
    assert keeping.net_with_feed_mmolc_m2_year == plain.net_with_feed_mmolc_m2_year
    assert keeping.sulfur_as_s_g_m2_year == plain.sulfur_as_s_g_m2_year
    assert keeping.lime_as_caco3_g_m2_year == plain.lime_as_caco3_g_m2_year
    assert "comes only once" in read(keeping.comment)


def test_pots_have_no_leaching_line_and_nearly_full_acid_from_ammonium(bed_case: Make) -> None:
    pot = Bed(kind=BedKind.CONTAINER, area_m2=1.0, depth_cm=30.0)
    feed = Feed(n_g_m2_year=8.0, form="ammonium")
    ledger, _ = held(blueberries(bed_case, bed=pot, feed=feed))
    assert "leaching-and-uptake" not in lines(ledger)
    assert lines(ledger)["nitrogen-feed"] == pytest.approx(1850.0 * 8.0 / 14.007)


@pytest.mark.parametrize(
    ("form", "acid"),
    [
        ("ammonium", 0.5 * 1500.0),
        ("urea", 0.5 * 500.0),
        ("nitrate", 0.5 * -500.0),
        ("ammonium nitrate", 0.5 * 500.0),
    ],
)
def test_the_present_feed_by_its_form(form: str, acid: float) -> None:
    feed = Feed(n_g_m2_year=14.007, form=form)
    assert present_feed_acid_mmolc_m2(feed, in_pot=False) == pytest.approx(acid)


def test_the_present_feed_by_material_and_times() -> None:
    feed = Feed(material=MATERIALS["urea"], rate_g_m2=10.0, times=3)
    once = Feed(material=MATERIALS["urea"], rate_g_m2=30.0)
    assert present_feed_acid_mmolc_m2(feed, in_pot=False) == pytest.approx(
        present_feed_acid_mmolc_m2(once, in_pot=False)
    )
    assert present_feed_acid_mmolc_m2(None, in_pot=False) == 0.0


def test_no_ledger_without_a_ph_or_an_aim(bed_case: Make) -> None:
    assert judged_upkeep(bed_case(None)) == (None, None)
    assert judged_upkeep(bed_case(7.0, target=None)) == (None, None)


def test_the_lines_are_those_that_are_named(bed_case: Make) -> None:
    applied = Applied(
        on=date(2026, 3, 1),
        material=MATERIALS["elemental sulfur, powder"],
        rate_g_m2=90.0,
        as_given="",
    )
    case = blueberries(bed_case, water=SOFT, applied=(applied,), feed=Feed(n_g_m2_year=8.0))
    ledger, _ = judged_upkeep(case)
    assert ledger is not None
    named = [line.replace(" ", "-") for line in LINES]
    found = list(lines(ledger))
    assert found == [line for line in named if line in found] and len(found) >= 5
