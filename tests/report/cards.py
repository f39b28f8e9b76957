"""Cards to lay out: those of the shipped examples, and some with odd words in them."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from functools import cache

from loamshift.domain.answer import Application
from loamshift.domain.card import Card
from loamshift.domain.case import BedKind, Case, ClaimEntry
from loamshift.report.card.bed import bed_card
from loamshift.report.card.claim import claim_card
from loamshift.report.card.claims_sheet import claims_sheet_card
from loamshift.report.card.rescue import rescue_sheet
from loamshift.report.card.sampling import sampling_sheet
from loamshift.report.card.water import water_card
from loamshift.report.words import Words
from loamshift.services.claim.settle import settle_claim
from loamshift.services.claims_sheet import claims_sheet
from loamshift.services.rescue.ask import whom_to_ask
from loamshift.services.sample.walk import sample_plan
from loamshift.services.sample.walk_points import sample_walk
from loamshift.services.water.tank import fill_tank
from loamshift.services.water.treat import treat_water
from loamshift.tables.materials import find_material
from report.examples import NAMES, example_answers, with_forecast
from report.letters import HOSTILE, UK, US

DAY = date(2026, 4, 12)
LONG = "The long border behind the glasshouse " * 4 + "Quercus" * 30


def reader(case: Case) -> Words:
    return US if case.units.value == "us" else UK


@cache
def bed_cards() -> dict[str, tuple[Card, Words]]:
    """The bed card of every example, two of them with a forecast."""
    made = {}
    for name, (answer, case) in example_answers().items():
        made[f"bed {name}"] = (bed_card(answer, case, words=reader(case)), reader(case))
    for name in ("north-border", "overdone-bed"):
        answer, case = with_forecast(name)
        made[f"bed {name} ahead"] = (bed_card(answer, case, words=UK), UK)
    answer, case = with_forecast("north-border")
    odd = replace(answer, name=LONG)
    made["bed long name"] = (bed_card(odd, case, words=UK), UK)
    part = answer.applications[0]
    many = replace(
        answer,
        name=HOSTILE,
        applications=tuple(
            replace(part, date=date(2026 + i // 12, 1 + i % 12, 1), only_if="the test allows it")
            for i in range(30)
        ),
    )
    assert all(isinstance(one, Application) for one in many.applications)
    made["bed many parts"] = (bed_card(many, case, words=UK), UK)
    return made


@cache
def rescue_sheets() -> dict[str, tuple[Card, Words]]:
    """The rescue sheet of every example that has a rescue."""
    made = {}
    for name, (answer, case) in example_answers().items():
        sheet = rescue_sheet(answer, case, ask=whom_to_ask(answer, case), words=reader(case))
        if sheet is not None:
            made[f"rescue {name}"] = (sheet, reader(case))
    return made


@cache
def claim_cards() -> dict[str, tuple[Card, Words]]:
    """Claims that help, do nothing, go the wrong way, and run off the curve."""
    _, case = example_answers()["north-border"]
    made = {}
    for key, rate in (
        ("coffee grounds", 2000.0),
        ("elemental sulfur, powder", 100.0),
        ("ground limestone, calcitic", 300.0),
        ("ammonium sulfate", 50.0),
        ("sulfuric acid, 98 %", 5000.0),
        ("gypsum", 200.0),
    ):
        material = find_material(key)
        entry = ClaimEntry(material=material, rate_g_m2=rate, as_given="so much")
        claim = settle_claim(case, entry)
        for words in (UK, US):
            card = claim_card(
                claim, case, rate_g_m2=rate, notes=("Weigh it.",), day=DAY, words=words
            )
            made[f"claim {key} {words.units}"] = (card, words)
    return made


@cache
def claims_sheets() -> dict[str, tuple[Card, Words]]:
    """Folk remedies side by side, for ground that needs acid and for pots."""
    made = {}
    for name in ("north-border", "blue-hydrangeas"):
        _, case = example_answers()[name]
        for words in (UK, US):
            sheet = claims_sheet(case, seed=None)
            made[f"remedies {name} {words.units}"] = (
                claims_sheet_card(sheet, day=DAY, words=words),
                words,
            )
    return made


@cache
def sampling_sheets() -> dict[str, tuple[Card, Words]]:
    """Beds small and large, pots few and many."""
    made = {}
    for kind, area, pots, uneven in (
        (BedKind.GROUND, 20.0, 1, False),
        (BedKind.GROUND, None, 1, True),
        (BedKind.LAWN, 0.5, 1, True),
        (BedKind.FIELD, 90_000.0, 1, True),
        (BedKind.CONTAINER, None, 1, False),
        (BedKind.CONTAINER, None, 3, False),
        (BedKind.CONTAINER, None, 500, True),
    ):
        plan = sample_plan(kind=kind, area_m2=area, pots=pots, uneven=uneven, woody=True)
        walk = sample_walk(plan, kind=kind, area_m2=area, pots=pots)
        for words, bed in ((UK, ""), (US, LONG)):
            sheet = sampling_sheet(plan, walk, bed=bed, words=words)
            made[f"sample {kind.value} {area} {pots} {words.units}"] = (sheet, words)
    return made


@cache
def water_cards() -> dict[str, tuple[Card, Words]]:
    """Waters with and without a chosen acid, with a range, and soft ones."""
    made = {}
    for alkalinity, target, ph, acid, tank_l in (
        (180.0, None, None, None, 100.0),
        (180.0, None, 7.6, "citric", 20.0),
        (180.0, 5.8, None, "phosphoric 75", 1000.0),
        (350.0, 6.0, None, "sulphuric acid 93", 5000.0),
        (20.0, None, None, None, 100.0),
    ):
        water = treat_water(alkalinity_mg_l_as_caco3=alkalinity, target_ph=target, ph_start=ph)
        for words in (UK, US):
            card = water_card(water, fill_tank(water, tank_l=tank_l, acid=acid), words=words)
            made[f"water {alkalinity:.0f} {acid} {words.units}"] = (card, words)
    return made


@cache
def every_card() -> dict[str, tuple[Card, Words]]:
    """All of them by name."""
    return {
        **bed_cards(),
        **rescue_sheets(),
        **claim_cards(),
        **claims_sheets(),
        **sampling_sheets(),
        **water_cards(),
    }


__all__ = ["HOSTILE", "NAMES", "UK", "US", "every_card"]
