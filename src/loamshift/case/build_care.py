"""Water, feed, products, what was put on and what is claimed: from the file to rates per area."""

from __future__ import annotations

import datetime
import re

from loamshift.case.amounts import Amount, ring_area_m2, spread_amount
from loamshift.case.build_label import entry_material
from loamshift.case.collect import Collected
from loamshift.case.mend import Mend, plain_figure
from loamshift.case.schema_care import (
    AppliedEntry,
    ClaimEntryTable,
    FeedTable,
    OnHandEntry,
    WaterTable,
)
from loamshift.case.water_quantities import WeeklyWater
from loamshift.domain.case import Applied, Bed, BedKind, ClaimEntry, Feed, OnHand, Water
from loamshift.domain.material import Material, MaterialGroup
from loamshift.domain.place import Place

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


def build_water(table: WaterTable, *, bed: Bed, place: Place | None, collected: Collected) -> Water:
    """The water of a case.

    Parameters
    ----------
    table
        The water as the file has it.
    bed
        Area that a volume is spread over.
    place
        Decides which months are summer.
    collected
        Faults and notes so far; those found here are added.

    Returns
    -------
    Water
        Alkalinity [mg/L as CaCO3], weekly depth [mm], months.
    """
    if table.alkalinity is not None:
        collected.notes_from(table.alkalinity.notes)
    if table.hardness is not None:
        collected.note(
            f"water.hardness: {table.hardness.as_given} of hardness says nothing sure about the "
            "acid the water takes up, since gypsum makes water hard as well; ask for the "
            "alkalinity (bicarbonate)."
        )
    weekly_mm: float | None = None
    if table.weekly is not None:
        collected.notes_from(table.weekly.notes)
        weekly_mm = _weekly_mm(table.weekly, bed, collected)
    months = table.months
    if months is None:
        south = place is not None and place.latitude < 0.0
        months = _SOUTHERN_MONTHS if south else Water().months
    return Water(
        alkalinity_mg_l_as_caco3=table.alkalinity.value if table.alkalinity else None,
        weekly_mm=weekly_mm,
        months=months,
        hardness_mg_l_as_caco3=table.hardness.value if table.hardness else None,
    )


def _weekly_mm(weekly: WeeklyWater, bed: Bed, collected: Collected) -> float | None:
    ground_m2 = _watered_m2(weekly, bed)
    if ground_m2 is None:
        if not collected.is_bad("bed.area", "bed.plants", "bed.treated_diameter"):
            collected.fault(
                "water.weekly",
                weekly.as_given,
                "the area it waters is not known",
                'Give bed.area, or the water as a depth such as "25 mm".',
            )
        return None
    depth_mm = weekly.value / ground_m2
    if depth_mm > _LARGEST_WEEKLY_MM:
        collected.fault(
            "water.weekly",
            weekly.as_given,
            f"that is {plain_figure(depth_mm)} mm a week, more than any bed gets",
            f"Check the unit and bed.area; a thousandth would be {plain_figure(depth_mm / 1000)}"
            " mm. Give the volume of one week for one bed.",
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
    """The yearly feed of a case, or None where none is named.

    Parameters
    ----------
    table
        The feed as the file has it.
    bed
        Area that an amount is spread over.
    collected
        Faults and notes so far; those found here are added.

    Returns
    -------
    Feed or None
        Nitrogen and form, or material and rate.
    """
    by_nitrogen = table.n_g_m2_year is not None or table.form is not None
    by_material = table.material is not None or table.rate is not None
    if by_nitrogen and by_material:
        collected.fault(
            "feed",
            None,
            "both nitrogen with its form and a material with its rate are given",
            "Keep n_g_m2_year and form, or material and rate.",
        )
        return None
    if by_nitrogen:
        return _nitrogen_feed(table, collected)
    if not by_material:
        return None
    if table.material is None:
        collected.fault("feed.material", None, "a rate without its material", "Name the feed.")
        return None
    material = entry_material(table, "feed", collected)
    if material is None:
        return None
    if table.rate is None:
        collected.fault(
            "feed.rate", None, "a feed without its rate", 'Give rate = "20 g/m2" and times a year.'
        )
        return None
    rate = _rate(table.rate, material, bed, "feed.rate", collected)
    if rate is None:
        return None
    return Feed(material=material, rate_g_m2=rate, times=table.times or 1)


def _nitrogen_feed(table: FeedTable, collected: Collected) -> Feed | None:
    if table.n_g_m2_year is None:
        collected.fault(
            "feed.n_g_m2_year",
            None,
            "a form without how much nitrogen",
            "Give the nitrogen of a year in g/m2.",
        )
        return None
    if table.n_g_m2_year > _LARGEST_N_G_M2:
        collected.fault(
            "feed.n_g_m2_year",
            table.n_g_m2_year,
            f"{plain_figure(table.n_g_m2_year)} g/m2 of nitrogen a year is more than any plant is "
            "given",
            'Was kg/ha meant? Write the unit: "120 kg/ha" is 12 g/m2.',
        )
        return None
    if table.form is None:
        collected.fault(
            "feed.form",
            None,
            "nitrogen without its form",
            "Write ammonium, urea, nitrate or ammonium nitrate.",
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
                "the label says the strength already",
                "Keep label, and leave purity_pct out.",
            )
        if entry.price is not None and entry.pack is None and not collected.is_bad(f"{path}.pack"):
            collected.note(f"{path}: without the weight of the pack its price cannot be compared.")
        products.append(
            OnHand(
                material=material,
                purity_pct=entry.purity_pct,
                pack_g=entry.pack.value if entry.pack else None,
                price=entry.price,
                currency=entry.currency,
            )
        )
    return tuple(products)


def build_applied(
    entries: list[AppliedEntry],
    *,
    bed: Bed,
    today: datetime.date | None,
    collected: Collected,
) -> tuple[Applied, ...]:
    """What was already put on, as rates.

    Parameters
    ----------
    entries
        The entries as the file has them.
    bed
        Area that an amount is spread over.
    today
        The date the advice is for; nothing can have been put on later [date].
    collected
        Faults and notes so far; those found here are added.

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
        rate = _amount_or_rate(entry, material, bed, path, collected)
        if entry.date is None or material is None or rate is None:
            continue
        depth = entry.incorporated.value if entry.incorporated else 0.0
        found.append(
            Applied(
                on=entry.date,
                material=material,
                rate_g_m2=rate[0],
                as_given=rate[1],
                incorporated_cm=depth,
                in_household_measures=rate[2],
            )
        )
    return tuple(found)


def build_claims(
    entries: list[ClaimEntryTable], *, bed: Bed, collected: Collected
) -> tuple[ClaimEntry, ...]:
    """What is proposed, as rates.

    Parameters
    ----------
    entries
        The entries as the file has them.
    bed
        Area that an amount is spread over.
    collected
        Faults and notes so far; those found here are added.

    Returns
    -------
    tuple of ClaimEntry
        Material and rate [g/m2].
    """
    found: list[ClaimEntry] = []
    for number, entry in enumerate(entries, start=1):
        path = f"claim[{number}]"
        material = entry_material(entry, path, collected)
        rate = _amount_or_rate(entry, material, bed, path, collected)
        if material is not None and rate is not None:
            found.append(
                ClaimEntry(
                    material=material,
                    rate_g_m2=rate[0],
                    as_given=rate[1],
                    in_household_measures=rate[2],
                )
            )
    return tuple(found)


def not_later(
    path: str, day: datetime.date | None, today: datetime.date | None, collected: Collected
) -> None:
    """A fault where something past is dated after the day of the advice.

    Parameters
    ----------
    path
        Its key [text].
    day
        When it happened [date].
    today
        The date the advice is for [date].
    collected
        Faults so far.
    """
    if day is not None and today is not None and day > today:
        collected.fault(
            path,
            day,
            f"this date is in the future (today is {today.isoformat()})",
            "Give the day it happened; leave out what is only planned.",
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
            "both amount and rate are given",
            "Keep one of them.",
        )
        return None
    given = entry.amount or entry.rate
    key = "amount" if entry.rate is None else "rate"
    if given is None:
        if not collected.is_bad(f"{path}.amount", f"{path}.rate"):
            collected.fault(
                f"{path}.amount",
                None,
                "how much is not said",
                'Give amount = "600 g" for the whole bed, or rate = "30 g/m2".',
            )
        return None
    if material is None:
        return None
    rate = _rate(given, material, bed, f"{path}.{key}", collected)
    return None if rate is None else (rate, given.as_given, given.rough)


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
    collected.notes_from(f"{path}: {note}" for note in spread.notes)
    limit = _NEVER_MORE_G_M2[material.group]
    if spread.rate_g_m2 > limit:
        area_m2 = bed.area_m2 if amount.per == "bed" else None
        where = "" if area_m2 is None else f" on {plain_figure(area_m2)} m2"
        kilograms = plain_figure(spread.rate_g_m2 / 1000.0)
        collected.fault(
            path,
            amount.as_given,
            f"{amount.as_given}{where} is {kilograms} kg/m2 of {material.key}",
            f"That is a slip of the unit, since {plain_figure(limit / 1000.0)} kg/m2 is more than "
            f"anyone spreads; did you mean {_likely_meant(amount, spread.rate_g_m2)}?",
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


def _likely_meant(amount: Amount, rate_g_m2: float) -> str:
    """The amount with the unit that was probably meant."""
    for unit, smaller in ((r"kgs?\b|kilos?\b|kilograms?\b", "g"), (r"t\b|tonnes?\b", "kg")):
        found = re.search(rf"(?<![a-z]){unit}", amount.as_given, flags=re.IGNORECASE)
        if found:
            return amount.as_given[: found.start()] + smaller + amount.as_given[found.end() :]
    if amount.rough:
        for measure, smaller in _SMALLER_MEASURES:
            if measure in amount.as_given.casefold():
                return f"{smaller}s instead of {measure}s"
    return f"a thousandth of it, {plain_figure(rate_g_m2 / 1000.0)} g/m2"
