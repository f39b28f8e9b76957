"""Random but readable cases, written as case files: the same seed gives the same case.

Most are what an adviser meets in a week; some are what one meets once and remembers: forty times
the dose, water like chalk, plants that share no soil, no pH at all.
"""

from __future__ import annotations

import json
import random
from collections.abc import Sequence
from datetime import date, timedelta
from functools import cache
from typing import Final

from laws.draft import Draft, Literal, number, quoted
from laws.rarer_keys import nutrients, other_mixes, pots, rarer_keys, what_is_seen
from loamshift.domain.material import Material, MaterialGroup
from loamshift.tables.materials import load_materials
from loamshift.tables.places import load_places
from loamshift.tables.plants import load_plants
from loamshift.tables.soils import load_textures

LABORATORY: Final = ("water 1:1", "water 1:2", "water 1:2.5", "water 1:5", "paste", "CaCl2", "KCl")
ROUGH: Final = ("probe", "strip", "unknown")
FIZZ: Final = ("none", "slight", "moderate", "strong", "extreme")
BUFFERS: Final = {
    "smp": (5.4, 7.3),
    "sikora": (5.6, 7.4),
    "mehlich": (5.0, 6.6),
    "modified mehlich": (5.2, 6.6),
    "moore-sikora": (7.0, 7.95),
    "adams-evans": (7.1, 7.95),
    "woodruff": (6.2, 6.95),
    "penn state acidity": (5.0, 6.6),
}
"""Buffers, and between which figures they read in acid soils."""
SANE_G_M2: Final = {
    MaterialGroup.SULFUR: (10.0, 100.0),
    MaterialGroup.ACID_SALT: (50.0, 400.0),
    MaterialGroup.NITROGEN: (5.0, 40.0),
    MaterialGroup.NEUTRAL_SALT: (20.0, 300.0),
    MaterialGroup.LIME: (60.0, 500.0),
    MaterialGroup.ASH: (40.0, 300.0),
    MaterialGroup.ORGANIC: (500.0, 8_000.0),
    MaterialGroup.ACID: (2.0, 60.0),
    MaterialGroup.IRON: (2.0, 20.0),
}
"""What people put on in good faith [g/m2]."""
MEAL_N_FRAC: Final = 0.02
MEAL_G_M2: Final = (30.0, 200.0)
"""Meals and the like are organic matter that goes on as a feed [g/m2]."""
INSANE: Final = {
    MaterialGroup.SULFUR: 1_500.0,
    MaterialGroup.ACID_SALT: 4_000.0,
    MaterialGroup.NITROGEN: 500.0,
    MaterialGroup.NEUTRAL_SALT: 5_000.0,
    MaterialGroup.LIME: 9_000.0,
    MaterialGroup.ASH: 6_000.0,
    MaterialGroup.ORGANIC: 60_000.0,
    MaterialGroup.ACID: 1_500.0,
    MaterialGroup.IRON: 300.0,
}
"""What one does who misreads the packet [g/m2]."""
FAMILIAR: Final = (
    "highbush blueberry", "rhododendron", "camellia", "heather (ling)", "azalea", "cabbage",
    "hydrangea (blue flowers)", "potato", "tomato", "carrot", "lettuce", "onion", "asparagus",
    "strawberry", "raspberry", "apple", "rose", "lavender", "lilac", "kentucky bluegrass",
    "perennial ryegrass", "wheat", "maize", "alfalfa (lucerne)", "white clover", "pin oak",
    "japanese maple", "clematis",
)  # fmt: skip
"""Plants that are asked about most; half of the cases draw from these."""


def case_text(seed: int) -> str:
    """A random case file.

    Parameters
    ----------
    seed
        Any whole number [number].

    Returns
    -------
    str
        TOML that the reader takes [text].
    """
    return draft(seed).text()


def draft(seed: int) -> Draft:
    """The same case before it is written, for changes to it.

    Parameters
    ----------
    seed
        Any whole number [number].

    Returns
    -------
    Draft
        Tables and keys [object].
    """
    draw = random.Random(seed)
    today = date(2026, 1, 1) + timedelta(days=draw.randrange(365))
    made = Draft(
        top={"case": "1", "name": quoted(f"Bed {seed}"), "today": today.isoformat()},
    )
    if draw.random() < 0.2:
        made.top["units"] = quoted("us")
    _place(draw, made)
    kind = draw.choices(
        ("ground", "raised", "container", "lawn", "field"), weights=(45, 12, 18, 12, 13)
    )[0]
    _bed(draw, made, kind)
    plants = _plants(draw)
    start = _soil(draw, made, kind=kind, plants=plants, today=today)
    _aim(draw, made, plants=plants, today=today, start=start)
    _water(draw, made, kind=kind)
    _feed(draw, made)
    _on_hand(draw, made)
    _applied(draw, made, today=today)
    _readings(draw, made, today=today, start=start)
    if draw.random() < 0.05 and start is not None and 4.5 < start < 8.5:
        for acid, shift in ((0.0, 0.0), (20.0, -0.35), (-20.0, 0.3)):
            made.add("titration", {"acid_mmolc_kg": number(acid), "ph": number(start + shift)})
    for _ in range(draw.choices((0, 1, 2), weights=(60, 30, 10))[0]):
        made.add("claim", _put_on(draw, insane=draw.random() < 0.3))
    rarer_keys(random.Random(f"rarer keys of {seed}"), made, start=start)
    what_is_seen(random.Random(f"what is seen of {seed}"), made)
    other_mixes(random.Random(f"other mixes of {seed}"), made)
    pots(random.Random(f"pots of {seed}"), made)
    nutrients(random.Random(f"nutrients of {seed}"), made)
    return made


def chance(draw: random.Random, share: float) -> bool:
    """True in so many cases [0-1]."""
    return draw.random() < share


def ph_of(draw: random.Random) -> float:
    """A pH in water as soils have it: most between 4.5 and 8, some far out."""
    if chance(draw, 0.12):
        return draw.uniform(3.3, 9.2)
    return min(max(draw.gauss(6.4, 1.1), 3.3), 9.2)


@cache
def _materials(*groups: MaterialGroup) -> tuple[Material, ...]:
    return tuple(one for one in load_materials().values() if not groups or one.group in groups)


def _sane(material: Material) -> tuple[float, float]:
    """What people put on of a material in good faith [g/m2]."""
    if material.group is MaterialGroup.ORGANIC and material.n_frac > MEAL_N_FRAC:
        return MEAL_G_M2
    return SANE_G_M2[material.group]


def _place(draw: random.Random, made: Draft) -> None:
    places = load_places()
    drawn = draw.random()
    if drawn < 0.15:
        return
    south = [name for name, place in places.items() if place.latitude < 0.0]
    name = draw.choice(south if drawn < 0.35 else list(places))
    if drawn > 0.93:
        place = places[name]
        made.table("place").update(
            latitude=number(place.latitude, 2),
            air_temp_c=str([round(temp) for temp in place.air_temp_c]),
            rain_mm=str([round(rain) for rain in place.rain_mm]),
        )
        return
    made.table("place")["name"] = quoted(name)


def _bed(draw: random.Random, made: Draft, kind: str) -> None:
    bed = made.table("bed")
    if kind != "ground" or chance(draw, 0.3):
        bed["kind"] = quoted(kind)
    areas = {
        "container": (0.05, 0.1, 0.25),
        "field": (2_000.0, 40_000.0),
        "lawn": (60.0, 400.0),
    }.get(kind, (1.5, 6.0, 20.0, 120.0))
    if chance(draw, 0.85):
        bed["area"] = number(draw.choice(areas), 2)
    if chance(draw, 0.55):
        bed["depth"] = number(
            draw.choice((10, 15, 20, 25, 30)) if kind != "lawn" else draw.choice((8, 10, 15)), 0
        )
    if kind == "container" and chance(draw, 0.6):
        bed["count"] = str(draw.randint(1, 12))
    if chance(draw, 0.6):
        bed["planted"] = draw.choice(("true", "false"))
    if chance(draw, 0.15):
        bed["growing"] = quoted(draw.choice(FAMILIAR))
    if chance(draw, 0.3):
        bed["drainage"] = quoted(
            draw.choices(("free", "slow", "waterlogged"), weights=(70, 20, 10))[0]
        )
    if chance(draw, 0.08):
        bed["site"] = quoted(draw.choice(("ordinary", "old-urban", "old-orchard")))


def _plants(draw: random.Random) -> list[str]:
    count = draw.choices((0, 1, 2, 3), weights=(18, 62, 13, 7))[0]
    every = list(load_plants())
    found: list[str] = []
    for _ in range(count):
        name = draw.choice(FAMILIAR if chance(draw, 0.5) else every)
        if name not in found:
            found.append(name)
    return found


def _soil(
    draw: random.Random, made: Draft, *, kind: str, plants: Sequence[str], today: date
) -> float | None:
    """The soil of a case; its pH where it has one."""
    soil = made.table("soil")
    start: float | None = None
    if chance(draw, 0.95):
        start = ph_of(draw)
        if plants and chance(draw, 0.35):
            plant = load_plants()[plants[0]]
            start = draw.uniform(plant.ph_low - 0.8, plant.ph_high + 0.8)
        start = round(min(max(start, 3.3), 9.2), 1)
        soil["ph"] = number(start)
        if chance(draw, 0.92):
            names = LABORATORY if chance(draw, 0.72) else ROUGH
            soil["ph_method"] = quoted(draw.choice(names))
    mix = chance(draw, 0.5 if kind == "container" else 0.04)
    if mix:
        soil["medium"] = quoted(draw.choice(("peat mix", "bark mix")))
    elif chance(draw, 0.75):
        soil["texture"] = quoted(draw.choice(list(load_textures())))
    elif chance(draw, 0.6):
        clay = draw.randint(2, 60)
        sand = draw.randint(5, 95 - clay) if clay < 90 else 5
        soil.update(sand_pct=str(sand), silt_pct=str(100 - clay - sand), clay_pct=str(clay))
    if chance(draw, 0.75 if not mix else 0.2):
        wide = 60.0 if chance(draw, 0.1) else 9.0
        soil["organic_matter_pct"] = number(draw.uniform(0.3, wide))
    _free_lime(draw, soil, start)
    acid = start is not None and start < 6.6 and not mix
    if acid and chance(draw, 0.3):
        method = draw.choice(list(BUFFERS))
        soil["buffer_ph"] = number(draw.uniform(*BUFFERS[method]))
        if chance(draw, 0.85):
            soil["buffer_ph_method"] = quoted(method)
    if start is not None and start < 6.4 and chance(draw, 0.18):
        soil["lab_lime_requirement"] = quoted(f"{draw.choice((0, 1, 2.5, 4, 8)):g} t/ha")
    if chance(draw, 0.12):
        soil["cec_cmolc_kg"] = number(draw.uniform(3.0, 40.0))
    if chance(draw, 0.06):
        soil["sodium_pct"] = number(draw.choice((1.0, 4.0, 12.0, 22.0)))
    if chance(draw, 0.1):
        soil["ec_ds_m"] = number(draw.choice((0.1, 0.4, 1.2, 3.0, 7.0)))
        soil["ec_method"] = quoted(draw.choice(("paste", "1:1", "1:2", "1:5")))
    if chance(draw, 0.06):
        soil["clay_type"] = quoted(draw.choice(("high activity", "low activity", "volcanic")))
    if chance(draw, 0.08):
        soil["bulk_density_g_cm3"] = number(0.3 if mix else draw.uniform(0.9, 1.5), 2)
    if start is not None and chance(draw, 0.55):
        days = draw.choice((3, 10, 30, 60, 200, 420, 900))
        soil["sampled"] = (today - timedelta(days=days)).isoformat()
    if start is not None and chance(draw, 0.4):
        soil["sample_depth"] = number(draw.choice((8, 10, 15, 20, 30)), 0)
    if start is not None and chance(draw, 0.1):
        made.add(
            "soil.other_ph",
            {"ph": number(start - draw.uniform(0.2, 0.9)), "ph_method": quoted("CaCl2")},
        )
    return start


def _free_lime(draw: random.Random, soil: dict[str, Literal], start: float | None) -> None:
    """Nothing said, a fizz class or a laboratory's figure; more lime where the pH is high."""
    limy = start is not None and start >= 7.2
    drawn = draw.random()
    if drawn < 0.4:
        return
    if drawn < 0.75:
        weights = (30, 25, 20, 15, 10) if limy else (86, 8, 3, 2, 1)
        soil["fizz"] = quoted(draw.choices(FIZZ, weights=weights)[0])
        if chance(draw, 0.5):
            soil["fizz_acid"] = quoted(draw.choice(("HCl", "vinegar")))
        return
    figures = (0.0, 0.1, 0.4, 1.2, 4.0, 15.0, 40.0) if limy else (0.0, 0.0, 0.1, 0.4)
    soil["carbonate_pct"] = number(draw.choice(figures))


def _aim(
    draw: random.Random,
    made: Draft,
    *,
    plants: Sequence[str],
    today: date,
    start: float | None,
) -> None:
    aim = made.table("aim")
    if plants:
        aim["plant"] = quoted(plants[0]) if len(plants) == 1 else json.dumps(list(plants))
    if (not plants and chance(draw, 0.75)) or (plants and chance(draw, 0.08)):
        middle = 6.2 if start is None else start + draw.choice((-1.2, -0.8, -0.4, 0.4, 0.8, 1.2))
        aim["target_ph"] = number(min(max(middle, 4.0), 7.8))
        if chance(draw, 0.2):
            aim["target_method"] = quoted(draw.choice(("water 1:1", "CaCl2")))
    if aim and chance(draw, 0.3):
        days = draw.choice((60, 200, 400, 750, 1400))
        aim["by"] = (today + timedelta(days=days)).isoformat()


def _water(draw: random.Random, made: Draft, *, kind: str) -> None:
    if not chance(draw, 0.75 if kind == "container" else 0.45):
        return
    water = made.table("water")
    if chance(draw, 0.75):
        water["alkalinity"] = number(draw.choice((0, 15, 40, 90, 150, 220, 300, 420)), 0)
    if chance(draw, 0.85):
        water["weekly"] = quoted(f"{draw.choice((5, 10, 15, 25, 40))} mm")
    if chance(draw, 0.2):
        water["months"] = str(draw.choice(([6, 7, 8], [4, 5, 6, 7, 8, 9, 10], [11, 12, 1, 2])))
    if chance(draw, 0.08):
        water["hardness"] = number(draw.choice((60, 250)), 0)


def _feed(draw: random.Random, made: Draft) -> None:
    if not chance(draw, 0.3):
        return
    feed = made.table("feed")
    if chance(draw, 0.6):
        feed["n_g_m2_year"] = number(draw.choice((3.0, 6.0, 12.0, 25.0)))
        feed["form"] = quoted(draw.choice(("ammonium", "urea", "nitrate", "ammonium nitrate")))
        return
    material = draw.choice(_materials(MaterialGroup.NITROGEN, MaterialGroup.ORGANIC))
    low, high = _sane(material)
    feed["material"] = quoted(material.key)
    feed["rate"] = number(draw.uniform(low, high), 0)
    if material.n_frac > MEAL_N_FRAC and chance(draw, 0.5):
        feed["times"] = str(draw.randint(1, 4))


def _on_hand(draw: random.Random, made: Draft) -> None:
    for _ in range(draw.choices((0, 1, 2), weights=(70, 20, 10))[0]):
        groups = (MaterialGroup.SULFUR, MaterialGroup.LIME, MaterialGroup.ACID_SALT)
        material = draw.choice(_materials(*groups) if chance(draw, 0.8) else _materials())
        keys = {"material": quoted(material.key)}
        if material.group in (MaterialGroup.SULFUR, MaterialGroup.LIME) and chance(draw, 0.3):
            keys["purity_pct"] = str(draw.choice((30, 60, 80, 90)))
        if chance(draw, 0.6):
            keys["pack"] = quoted(f"{draw.choice((1, 5, 25))} kg")
            keys["price"] = number(draw.uniform(2.0, 60.0), 2)
            keys["currency"] = quoted(draw.choice(("GBP", "USD", "EUR")))
        made.add("on_hand", keys)


def _applied(draw: random.Random, made: Draft, *, today: date) -> None:
    insane = chance(draw, 0.2)
    for _ in range(draw.choices((0, 1, 2, 3), weights=(58, 24, 12, 6))[0]):
        days = draw.choice((0, 12, 45, 120, 250, 400, 1100, 2200))
        keys = {"date": (today - timedelta(days=days)).isoformat(), **_put_on(draw, insane=insane)}
        if chance(draw, 0.35):
            keys["incorporated"] = number(draw.choice((0, 5, 10, 20)), 0)
        made.add("applied", keys)


def _put_on(draw: random.Random, *, insane: bool) -> dict[str, Literal]:
    group = draw.choice(list(SANE_G_M2))
    if chance(draw, 0.4):
        group = draw.choice((MaterialGroup.SULFUR, MaterialGroup.ACID_SALT, MaterialGroup.LIME))
    material = draw.choice(_materials(group))
    low, high = _sane(material)
    rate = draw.uniform(high, INSANE[group]) if insane else draw.uniform(low, high)
    return {"material": quoted(material.key), "rate": number(rate, 0 if rate >= 10.0 else 1)}


def _readings(draw: random.Random, made: Draft, *, today: date, start: float | None) -> None:
    count = draw.choices((0, 1, 2, 4), weights=(72, 14, 8, 6))[0]
    for _ in range(count):
        days = draw.choice((5, 40, 160, 380, 760, 1500))
        middle = ph_of(draw) if start is None else start + draw.gauss(0.0, 0.4)
        keys = {
            "date": (today - timedelta(days=days)).isoformat(),
            "ph": number(min(max(middle, 3.0), 9.5)),
        }
        if chance(draw, 0.9):
            keys["ph_method"] = quoted(draw.choice(LABORATORY if chance(draw, 0.8) else ROUGH))
        if chance(draw, 0.4):
            keys["depth"] = number(draw.choice((10, 15, 30)), 0)
        made.add("reading", keys)
