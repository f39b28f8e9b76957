"""Water, feed, products, what was put on and what is claimed: from the file to rates per area."""

from __future__ import annotations

import datetime
import re
from collections.abc import Iterator

from loamshift.case.amounts import Amount, read_amount, read_rate, ring_area_m2, spread_amount
from loamshift.case.build_label import entry_material
from loamshift.case.collect import Collected
from loamshift.case.fill import filled
from loamshift.case.mend import Mend, for_example, plain_figure
from loamshift.case.schema_care import (
    AppliedEntry,
    ClaimEntryTable,
    FeedTable,
    OnHandEntry,
    TestPriceEntry,
    WaterTable,
)
from loamshift.case.toml_string import toml_string
from loamshift.case.water_quantities import WeeklyWater
from loamshift.domain.case import (
    Applied,
    Bed,
    BedKind,
    ClaimEntry,
    Feed,
    OnHand,
    PriceOfTest,
    Water,
)
from loamshift.domain.material import Material, MaterialGroup
from loamshift.domain.message import (
    Given,
    Measure,
    Message,
    Product,
    Quantity,
    message,
    rate,
)
from loamshift.domain.place import Place
from loamshift.domain.worth import FurtherTest

_SOUTHERN_MONTHS = (11, 12, 1, 2, 3)
_LARGEST_WEEKLY_MM = 300.0
_LARGEST_N_G_M2 = 100.0
_NEVER_MORE_G_M2 = {
    MaterialGroup.SULFUR: 2_000.0,
    MaterialGroup.ACID_SALT: 15_000.0,
    MaterialGroup.ACID: 10_000.0,
    MaterialGroup.NITROGEN: 3_000.0,
    MaterialGroup.NEUTRAL_SALT: 20_000.0,
    MaterialGroup.LIME: 20_000.0,
    MaterialGroup.ORGANIC: 400_000.0,
    MaterialGroup.ASH: 20_000.0,
    MaterialGroup.IRON: 3_000.0,
}
"""More of it on a square metre [g/m2] is a slip of the unit, not an overdose."""
_RAIN_G_M2 = 5_000_000.0
"""The same for rain, of which a wet place gets so much in a year [g/m2]."""
_RAIN_MOLC_KG = 0.001
"""Water with less acid than this is rain [molc/kg]."""


def build_water(table: WaterTable, *, bed: Bed, place: Place | None, collected: Collected) -> Water:
    """The water of a case.

    Returns
    -------
    Water
        Alkalinity [mg/L as CaCO3], weekly depth [mm], months.
    """
    if table.alkalinity is not None:
        collected.notes_from("water.alkalinity", table.alkalinity.notes)
    if table.hardness is not None:
        given = Given(table.hardness.as_given)
        collected.note("water.hardness", message("case-note-hardness", given=given))
    weekly_mm: float | None = None
    if table.weekly is not None:
        collected.notes_from("water.weekly", table.weekly.notes)
        weekly_mm = _weekly_mm(table.weekly, bed, collected)
    months = table.months
    if months is None:
        south = place is not None and place.latitude < 0.0
        months = _SOUTHERN_MONTHS if south else Water().months
    return Water(**{**filled(table, Water), "weekly_mm": weekly_mm, "months": months})


def _weekly_mm(weekly: WeeklyWater, bed: Bed, collected: Collected) -> float | None:
    ground_m2 = _watered_m2(weekly, bed)
    if ground_m2 is None:
        if not collected.is_bad("bed.area", "bed.plants", "bed.treated_diameter"):
            collected.fault(
                "water.weekly",
                weekly.as_given,
                message("case-watered-area-unknown"),
                message("case-area-or-depth", key=Given(""), example=Given('"25 mm"')),
            )
        return None
    depth_mm = weekly.value / ground_m2
    if depth_mm > _LARGEST_WEEKLY_MM:
        collected.fault(
            "water.weekly",
            weekly.as_given,
            message(
                "case-too-much-water",
                given=Given(weekly.as_given),
                depth=Measure(Quantity.WATER_DEPTH, depth_mm),
            ),
            message("case-water-of-one-week"),
            for_example('"25 mm"', '"550 L"'),
        )
        return None
    return depth_mm


def _watered_m2(weekly: WeeklyWater, bed: Bed) -> float | None:
    if weekly.per == "area":
        return 1.0
    ring_m2 = ring_area_m2(bed)
    if weekly.per == "plant":
        if ring_m2 is not None:
            return ring_m2
        if bed.area_m2 is not None and bed.plants is not None:
            return bed.area_m2 / bed.plants
        return bed.area_m2 if bed.kind is BedKind.CONTAINER else None
    if bed.area_m2 is not None:
        return bed.area_m2
    if ring_m2 is not None and bed.plants is not None:
        return ring_m2 * bed.plants
    return None


def build_feed(table: FeedTable, *, bed: Bed, collected: Collected) -> Feed | None:
    """The yearly feed of a case, or None where none is named."""
    by_nitrogen = table.n_g_m2_year is not None or table.form is not None
    by_material = table.material is not None or table.rate is not None
    if by_nitrogen and by_material:
        collected.fault(
            "feed",
            None,
            message("case-feed-twice"),
            message("case-feed-keep-one"),
        )
        return None
    if by_nitrogen:
        return _nitrogen_feed(table, collected)
    if not by_material:
        return None
    if table.material is None:
        example = for_example('"sulphate of ammonia"')
        collected.fault("feed.material", None, message("case-feed-without-name"), example)
        return None
    material = entry_material(table, "feed", collected)
    if material is None:
        return None
    if table.rate is None:
        collected.fault(
            "feed.rate", None, message("case-feed-without-rate"), for_example('"20 g/m2"')
        )
        return None
    rate_g_m2 = _rate(table.rate, material, bed, "feed.rate", collected)
    if rate_g_m2 is None:
        return None
    return Feed(material=material, rate_g_m2=rate_g_m2, times=table.times or 1)


def _nitrogen_feed(table: FeedTable, collected: Collected) -> Feed | None:
    if table.n_g_m2_year is None:
        collected.fault(
            "feed.n_g_m2_year",
            None,
            message("case-nitrogen-missing"),
            for_example("6", '"60 kg/ha"'),
        )
        return None
    if table.n_g_m2_year > _LARGEST_N_G_M2:
        collected.fault(
            "feed.n_g_m2_year",
            table.n_g_m2_year,
            message("case-too-much-nitrogen", rate=rate(table.n_g_m2_year)),
            message(
                "case-kg-ha-meant",
                key=Given(""),
                example=Given(f'"{plain_figure(min(table.n_g_m2_year, 1000.0))} kg/ha"'),
            ),
        )
        return None
    if table.form is None:
        collected.fault(
            "feed.form",
            None,
            message("case-nitrogen-form-missing"),
            for_example('"ammonium"', '"urea"', '"nitrate"', '"ammonium nitrate"'),
        )
        return None
    return Feed(n_g_m2_year=table.n_g_m2_year, form=table.form, times=table.times or 1)


def build_on_hand(entries: list[OnHandEntry], collected: Collected) -> tuple[OnHand, ...]:
    """The products of a case; a price without its pack is noted, since it cannot be compared."""
    products: list[OnHand] = []
    for number, entry in enumerate(entries, start=1):
        path = f"on_hand[{number}]"
        material = entry_material(entry, path, collected)
        if material is None:
            continue
        if entry.purity_pct is not None and entry.label is not None:
            collected.fault(
                f"{path}.purity_pct",
                entry.purity_pct,
                message("case-strength-twice"),
                message("case-keep-label"),
            )
        if entry.price is not None and entry.pack is None and not collected.is_bad(f"{path}.pack"):
            collected.note(path, message("case-note-price-without-pack"))
        products.append(OnHand(**{**filled(entry, OnHand), "material": material}))
    return tuple(products)


def build_test_prices(
    entries: list[TestPriceEntry], collected: Collected
) -> tuple[PriceOfTest, ...]:
    """The user's prices of tests, each test once."""
    found: dict[FurtherTest, PriceOfTest] = {}
    for number, entry in enumerate(entries, start=1):
        if entry.test is None or entry.price is None:
            continue
        if entry.test in found:
            collected.fault(
                f"test_price[{number}].test",
                entry.test.value,
                message("case-test-priced-twice"),
                message("case-keep-one-price"),
            )
        found[entry.test] = PriceOfTest(test=entry.test, price=entry.price)
    return tuple(found.values())


def build_applied(
    entries: list[AppliedEntry],
    *,
    bed: Bed,
    today: datetime.date | None,
    collected: Collected,
) -> tuple[Applied, ...]:
    """What was already put on, as rates.

    Returns
    -------
    tuple of Applied
        Date, material, rate [g/m2], depth worked in [cm].
    """
    found: list[Applied] = []
    for number, entry in enumerate(entries, start=1):
        path = f"applied[{number}]"
        not_later(f"{path}.date", entry.date, today, collected)
        material = entry_material(entry, path, collected)
        spread = _amount_or_rate(entry, material, bed, path, collected)
        if entry.date is None or material is None or spread is None:
            continue
        depth = entry.incorporated.value if entry.incorporated else 0.0
        found.append(
            Applied(
                on=entry.date,
                material=material,
                rate_g_m2=spread[0],
                as_given=spread[1],
                incorporated_cm=depth,
                in_household_measures=spread[2],
            )
        )
    return tuple(found)


def build_claims(
    entries: list[ClaimEntryTable], *, bed: Bed, collected: Collected
) -> tuple[ClaimEntry, ...]:
    """What is proposed, as rates.

    Returns
    -------
    tuple of ClaimEntry
        Material and rate [g/m2].
    """
    found: list[ClaimEntry] = []
    for number, entry in enumerate(entries, start=1):
        path = f"claim[{number}]"
        material = entry_material(entry, path, collected)
        spread = _amount_or_rate(entry, material, bed, path, collected)
        if material is not None and spread is not None:
            found.append(
                ClaimEntry(
                    material=material,
                    rate_g_m2=spread[0],
                    as_given=spread[1],
                    in_household_measures=spread[2],
                )
            )
    return tuple(found)


def not_later(
    path: str, day: datetime.date | None, today: datetime.date | None, collected: Collected
) -> None:
    """A fault where something past is dated after the day of the advice."""
    if day is not None and today is not None and day > today:
        collected.fault(
            path,
            day,
            message("case-date-in-future", day=day, today=today),
            message("case-day-it-happened"),
        )


def _amount_or_rate(
    entry: AppliedEntry | ClaimEntryTable,
    material: Material | None,
    bed: Bed,
    path: str,
    collected: Collected,
) -> tuple[float, str, bool] | None:
    """The rate [g/m2], the text it was given in, and whether that was a household measure."""
    if entry.amount is not None and entry.rate is not None:
        collected.fault(
            path,
            f"{entry.amount.as_given}; {entry.rate.as_given}",
            message("case-amount-and-rate"),
            message("case-keep-one"),
        )
        return None
    given = entry.amount or entry.rate
    key = "amount" if entry.rate is None else "rate"
    if given is None:
        if not collected.is_bad(f"{path}.amount", f"{path}.rate"):
            collected.fault(
                f"{path}.amount",
                None,
                message("case-how-much-missing"),
                message("case-amount-or-rate", key=Given(""), example=Given('"600 g"')),
            )
        return None
    if material is None:
        return None
    rate_g_m2 = _rate(given, material, bed, f"{path}.{key}", collected)
    return None if rate_g_m2 is None else (rate_g_m2, given.as_given, given.rough)


def _rate(
    amount: Amount, material: Material, bed: Bed, path: str, collected: Collected
) -> float | None:
    """The rate of an amount on the bed [g/m2], unless it cannot be told or cannot be meant."""
    try:
        spread = spread_amount(amount, material=material, bed=bed)
    except Mend as mend:
        if not collected.is_bad("bed.area", "bed.plants", "bed.treated_diameter", "bed.kind"):
            collected.mend(path, amount.as_given, mend)
        return None
    collected.notes_from(path, spread.notes)
    limit = _never_more_g_m2(material)
    if spread.rate_g_m2 > limit:
        on_bed = amount.per == "bed" and bed.area_m2 is not None
        area = Measure(Quantity.AREA, bed.area_m2) if on_bed and bed.area_m2 else None
        collected.fault(
            path,
            amount.as_given,
            message(
                "case-slip-of-unit",
                given=Given(amount.as_given),
                area=area,
                rate=rate(spread.rate_g_m2),
                product=Product(material.key),
                limit=rate(limit),
            ),
            _likely_meant(amount, material, bed, limit),
        )
        return None
    return spread.rate_g_m2


_SMALLER_MEASURES = (
    ("barrow", "bucket"),
    ("bucket", "cup"),
    ("can", "cup"),
    ("tablespoon", "teaspoon"),
    ("cup", "tablespoon"),
    ("mug", "tablespoon"),
)


def _likely_meant(amount: Amount, material: Material, bed: Bed, limit_g_m2: float) -> Message:
    """The amount with the unit that was probably meant, if that can be spread."""
    for text in _smaller(amount):
        try:
            read = read_rate(text) if amount.per == "area" else read_amount(text)
            spread = spread_amount(read, material=material, bed=bed)
        except Mend:
            continue
        if spread.rate_g_m2 <= limit_g_m2:
            example = Given(toml_string(text))
            return message("case-did-you-mean", key=Given(""), example=example)
    if amount.per == "area":
        return for_example('"30 g/m2"')
    return message("case-check-unit-and-area")


def _smaller(amount: Amount) -> Iterator[str]:
    """The amount as given with a smaller unit in it."""
    given = amount.as_given
    for unit, smaller in ((r"kgs?\b|kilos?\b|kilograms?\b", "g"), (r"t\b|tonnes?\b", "kg")):
        found = re.search(rf"(?<![a-z]){unit}", given, flags=re.IGNORECASE)
        if found:
            yield given[: found.start()] + smaller + given[found.end() :]
    for measure, smaller in _SMALLER_MEASURES:
        if amount.rough and measure in given.casefold():
            yield re.sub(measure, smaller, given, flags=re.IGNORECASE)


def _never_more_g_m2(material: Material) -> float:
    if 0.0 < material.fast_acid_molc_kg < _RAIN_MOLC_KG:
        return _RAIN_G_M2
    return _NEVER_MORE_G_M2[material.group]
