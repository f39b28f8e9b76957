"""Facts every adviser knows, without a source: the model must not contradict them."""

from __future__ import annotations

from itertools import pairwise

from loamshift.case.read import parse_case
from loamshift.domain.case import Case, ClaimEntry, OnHand
from loamshift.services.advise import advise
from loamshift.services.claim.settle import settle_claim
from loamshift.services.materials.acid import acid_brought_mmolc_m2
from loamshift.services.products.prices import cost_per_kg_s
from loamshift.tables.materials import load_materials
from published.check import Check, Kind

SOURCE = "common practice, no source"
CASE = """
case = 1
today = 2026-04-12
[place]
name = "Minneapolis"
[bed]
area = "10 m2"
planted = false
[soil]
ph = {ph}
ph_method = "water 1:1"
texture = "{texture}"
organic_matter_pct = {om}
carbonate_pct = 0
[aim]
target_ph = {aim}
"""


def bed(*, ph: float = 7.0, texture: str = "loam", om: float = 2.6, aim: float = 5.5) -> Case:
    """An invented bed without free lime."""
    return parse_case(CASE.format(ph=ph, texture=texture, om=om, aim=aim))


def sulfur_g_m2(case: Case) -> float:
    """Middle of the sulfur dose [g/m2]."""
    band = advise(case).dose.sulfur_as_s_g_m2
    assert band is not None
    return band.mid


def checks() -> list[Check]:
    """All facts of the trade that need the whole path from case to answer."""
    return [
        _texture_order(),
        _organic_order(),
        _parts(),
        *_reported_ph(),
        *_no_help(),
        *_nitrogen(),
        _price(),
    ]


def _texture_order() -> Check:
    doses = [sulfur_g_m2(bed(texture=texture)) for texture in ("sand", "loam", "clay")]
    return Check(
        topic="Common practice",
        kind=Kind.PRACTICE,
        claim="clay takes more sulfur than loam, loam more than sand",
        source=SOURCE,
        n=3,
        figure=" < ".join(f"{dose:.0f}" for dose in doses) + " g/m2 from pH 7.0 to 5.5",
        limit="rising",
        passed=doses == sorted(doses) and doses[0] < doses[-1],
    )


def _organic_order() -> Check:
    doses = [sulfur_g_m2(bed(om=om)) for om in (1.0, 3.0, 6.0)]
    return Check(
        topic="Common practice",
        kind=Kind.PRACTICE,
        claim="soil rich in organic matter takes more sulfur",
        source=SOURCE,
        n=3,
        figure=" < ".join(f"{dose:.0f}" for dose in doses) + " g/m2 at 1, 3 and 6 % organic matter",
        limit="rising",
        passed=doses == sorted(doses) and doses[0] < doses[-1],
    )


def _parts() -> Check:
    answer = advise(bed(aim=5.0))
    days = [part.date for part in answer.applications]
    waits = [
        max(((test - earlier).days for test in answer.retest if test < later), default=0)
        for earlier, later in pairwise(days)
    ]
    return Check(
        topic="Common practice",
        kind=Kind.ADVICE,
        claim="a large amount goes on in parts, with a test some three months on before the rest",
        source="tennessee-blueberries",
        n=len(waits),
        figure=", ".join(f"a test {wait} days after the first" for wait in waits),
        limit="a test 85 days or more after each part and before the next",
        passed=bool(waits) and min(waits) >= 85,
    )


def _reported_ph() -> list[Check]:
    found = []
    for key, low, high in (
        ("compost, any finished", 7.0, 7.5),
        ("coffee grounds, spent", 6.5, 6.8),
    ):
        value = load_materials()[key].figures["ph_water"].value
        found.append(
            Check(
                topic="Common practice",
                kind=Kind.PRACTICE,
                claim=f"{key}: the pH our table gives",
                source=SOURCE,
                n=1,
                figure=f"pH {value:g}",
                limit=f"pH {low:g} to {high:g}",
                passed=low <= value <= high,
                note="sources run from 4.6 to 6.8" if "coffee" in key else "sources run 5 to 8.5",
            )
        )
    return found


def _no_help() -> list[Check]:
    case = bed(aim=5.0)
    found = []
    for key in ("coffee grounds, spent", "pine needles, fallen", "oak leaves, fallen"):
        entry = ClaimEntry(material=load_materials()[key], rate_g_m2=2000.0, as_given="2 kg/m2")
        share = settle_claim(case, entry).share
        assert share is not None
        found.append(
            Check(
                topic="Common practice",
                kind=Kind.PRACTICE,
                claim=f"{key}: no useful acid in 2 kg/m2",
                source=SOURCE,
                n=1,
                figure=f"{100 * share:.1f} % of the acid a loam needs from pH 7 to 5",
                limit="below 5 %",
                passed=share < 0.05,
            )
        )
    return found


def _price() -> Check:
    powder = load_materials()["elemental sulfur, powder"]
    cheaper_bag, dearer_bag = (
        cost_per_kg_s(
            OnHand(material=powder, purity_pct=purity, pack_g=5000.0, price=price, currency="EUR")
        )
        for purity, price in ((60.0, 9.6), (99.0, 12.0))
    )
    assert cheaper_bag is not None and dearer_bag is not None
    return Check(
        topic="Common practice",
        kind=Kind.PRACTICE,
        claim="sulfur is compared by the price per kg of actual sulfur, not by the bag",
        source=SOURCE,
        n=2,
        figure=f"60 % at 9.60 a bag costs {cheaper_bag:.2f}, 99 % at 12.00 a bag {dearer_bag:.2f}",
        limit="the purer one is the cheaper",
        passed=dearer_bag < cheaper_bag,
    )


def _nitrogen() -> list[Check]:
    found = []
    for key, acid in (("ammonium sulfate", True), ("urea", True), ("calcium nitrate", False)):
        brought = acid_brought_mmolc_m2(load_materials()[key], rate_g_m2=50.0, in_pot=False)
        found.append(
            Check(
                topic="Common practice",
                kind=Kind.PRACTICE,
                claim=f"{key} {'acidifies' if acid else 'does not acidify'}",
                source=SOURCE,
                n=1,
                figure=f"{brought:+.0f} mmol of acid per m2 from 50 g/m2 in the field",
                limit="above 0" if acid else "0 or below",
                passed=(brought > 0.0) is acid,
            )
        )
    return found
