"""Keys of the case file that few people fill in, drawn on top of a random case.

They have a draw of their own, so that a seed keeps the rest of its case when a key is added here.
"""

from __future__ import annotations

import random
from datetime import date, timedelta
from typing import Final

from laws.draft import Draft, Literal, number, quoted
from loamshift.domain.case import Sign, Surrounding

BEFORE: Final = ("turf", "manured", "arable", "garden")
FEED_LABELS: Final = (
    "{ n_ammonium_pct = 21, s_sulfate_pct = 24 }",
    "{ n_nitrate_pct = 15.5, ca_pct = 19 }",
    "{ n_urea_pct = 46 }",
    "{ n_total_pct = 12, n_ammonium_pct = 7, n_urea_pct = 5, p2o5_pct = 8, k2o_pct = 16 }",
    "{ n_total_pct = 9, n_slow_pct = 6, n_ammonium_pct = 3, k2o_pct = 5 }",
)
"""Analyses of made-up fertilisers as bags print them [%]."""
SULFUR_LABELS: Final = (
    "{ s_element_pct = 90, filler_pct = 10 }",
    "{ s_element_pct = 99 }",
)
LIME_LABELS: Final = (
    '{ nv_as_caco3_pct = 95, fineness = "40 % through 150 um, 95 % through 5 mm" }',
    "{ nv_as_cao_pct = 50 }",
    '{ nv_as_caco3_pct = 102, mgo_pct = 18, fineness = "70 % through 150 um" }',
)
OTHER_LABELS: Final = ("{ fe_sulfate_pct = 19 }", "{ k2o_pct = 50, so3_pct = 45 }")
PRILLS: Final = (
    "elemental sulfur, prills",
    "elemental sulfur, pastilles",
    "elemental sulfur, dispersible",
    "elemental sulfur, prilled",
)
LIMES: Final = (
    "ground limestone, british standard",
    "ground limestone, irish standard",
    "ground limestone, dolomitic",
    "ground limestone, coarse",
    "pelletised limestone",
    "sugar beet lime",
)
TESTS: Final = ("fizz", "carbonate", "core", "buffer-ph", "jars", "water", "later-reading")
_FEED_G_M2: Final = (15.0, 80.0)
_SULFUR_G_M2: Final = (10.0, 90.0)
_LIME_G_M2: Final = (80.0, 400.0)
_OTHER_G_M2: Final = (10.0, 60.0)


def rarer_keys(draw: random.Random, made: Draft, *, start: float | None) -> None:
    """Add some of them to a case.

    Parameters
    ----------
    draw
        Where they are drawn from [object].
    made
        The case, to be changed [object].
    start
        Its pH, None where nobody read one [pH].
    """
    today = date.fromisoformat(made.top["today"])
    _place(draw, made, today=today)
    _bed(draw, made)
    _soil(draw, made, start=start)
    _materials(draw, made, today=today)
    _prices(draw, made)
    for header, keys in made.tables:
        if header == "[[reading]]" and _chance(draw, 0.25):
            keys["ph_sd"] = number(draw.choice((0.05, 0.1, 0.3)), 2)


def what_is_seen(draw: random.Random, made: Draft) -> None:
    """Put what lies around some beds, and what plants show, into a case.

    Parameters
    ----------
    draw
        A draw of its own, so that older draws stay [object].
    made
        The case, to be changed [object].
    """
    bed = made.table("bed")
    if bed.get("kind", quoted("ground")) == quoted("ground") and _chance(draw, 0.05):
        bed["surroundings"] = f"[{quoted(draw.choice(tuple(Surrounding)).value)}]"
    if _chance(draw, 0.05):
        bed["signs"] = f"[{quoted(draw.choice(tuple(Sign)).value)}]"
    if bed.get("kind", quoted("ground")) == quoted("ground") and _chance(draw, 0.05):
        _layer(draw, made)


def other_mixes(draw: random.Random, made: Draft) -> None:
    """Make the mix of some pots one of coir, or one without peat.

    Parameters
    ----------
    draw
        A draw of its own, so that older draws stay [object].
    made
        The case, to be changed [object].
    """
    soil = made.table("soil") if made.has("soil") else {}
    if "medium" in soil and _chance(draw, 0.1):
        soil["medium"] = quoted(draw.choice(("coir mix", "peat-free mix")))


def nutrients(draw: random.Random, made: Draft) -> None:
    """Give some soils their magnesium and the level of their phosphorus.

    Parameters
    ----------
    draw
        A draw of its own, so that older draws stay [object].
    made
        The case, to be changed [object].
    """
    if made.has("soil") and _chance(draw, 0.08):
        made.table("soil")["mg_mg_kg"] = number(draw.choice((20.0, 75.0, 180.0)), 0)
    if made.has("soil") and _chance(draw, 0.06):
        made.table("soil")["p_level"] = quoted(draw.choice(("low", "medium", "high", "very high")))


def pots(draw: random.Random, made: Draft) -> None:
    """Ask some cases to compare the bed with pots.

    Parameters
    ----------
    draw
        A draw of its own, so that older draws stay [object].
    made
        The case, to be changed [object].
    """
    if not _chance(draw, 0.08):
        return
    table = made.table("pot")
    table["compare"] = draw.choice(("true", "true", "false"))
    if _chance(draw, 0.5):
        table["volume"] = quoted(draw.choice(("15 L", "40 L", "20 gal")))
    if _chance(draw, 0.5):
        table["medium"] = quoted(draw.choice(("peat mix", "bark mix", "coir mix", "peat-free mix")))
    if _chance(draw, 0.5):
        table["mix_price"] = number(draw.choice((0.15, 0.4)), 2)
    if _chance(draw, 0.3):
        table["price"] = number(draw.choice((5.0, 18.0)), 2)


def _layer(draw: random.Random, made: Draft) -> None:
    """A layer below anything that is sampled or dug."""
    layer = {"top": quoted("60 cm"), "bottom": quoted("90 cm"), "ph": number(draw.uniform(4, 8.3))}
    if _chance(draw, 0.5):
        layer["ph_method"] = quoted(draw.choice(("water 1:1", "CaCl2")))
    if _chance(draw, 0.4):
        layer["carbonate_pct"] = number(draw.choice((0.0, 2.0, 20.0)))
    elif _chance(draw, 0.6):
        layer["fizz"] = quoted(draw.choice(("none", "slight", "strong")))
        layer["fizz_acid"] = quoted(draw.choice(("HCl", "vinegar")))
    made.add("soil.layer", layer)


def _prices(draw: random.Random, made: Draft) -> None:
    """A currency of one's own, with or without prices of tests in it."""
    if not _chance(draw, 0.15):
        return
    made.top["currency"] = quoted(draw.choice(("GBP", "USD", "EUR")))
    for test in draw.sample(TESTS, k=draw.choice((0, 1, 3))):
        price = number(draw.choice((0.0, 4.5, 30.0)), 2)
        made.add("test_price", {"test": quoted(test), "price": price})


def _chance(draw: random.Random, share: float) -> bool:
    return draw.random() < share


def _place(draw: random.Random, made: Draft, *, today: date) -> None:
    if not made.has("place") and _chance(draw, 0.2):
        latitude, longitude = draw.choice(((53, -2), (45, -93), (-37, 145), (48, 11), (36, 140)))
        made.table("place").update(latitude=str(latitude), longitude=str(longitude))
    if made.has("place") and _chance(draw, 0.06):
        read = {"date": (today - timedelta(days=7)).isoformat(), "c": number(draw.uniform(2, 20))}
        if _chance(draw, 0.5):
            read["depth"] = quoted(draw.choice(("5 cm", "10 cm", "20 cm")))
        made.add("place.soil_temp", read)


def _bed(draw: random.Random, made: Draft) -> None:
    bed = made.table("bed")
    open_ground = bed.get("kind", quoted("ground")) in map(quoted, ("ground", "raised", "field"))
    if open_ground and _chance(draw, 0.3):
        bed["before"] = quoted(draw.choice(BEFORE))
        if _chance(draw, 0.6):
            bed["before_years"] = number(draw.choice((0, 1, 3, 8, 30)), 0)
    if "area" in bed and open_ground and _chance(draw, 0.12):
        bed["plants"] = str(draw.choice((1, 3, 8)))
        if _chance(draw, 0.5):
            bed["treated_diameter"] = quoted(draw.choice(("40 cm", "80 cm")))


def _soil(draw: random.Random, made: Draft, *, start: float | None) -> None:
    soil = made.table("soil")
    if "organic_matter_pct" in soil and _chance(draw, 0.1):
        matter = float(soil.pop("organic_matter_pct"))
        soil["organic_carbon_pct"] = number(matter * 0.58, 2)
    if start is not None and _chance(draw, 0.06):
        soil["base_saturation_pct"] = str(draw.choice((25, 55, 85, 100)))
    if start is not None and start < 5.6 and _chance(draw, 0.12):
        soil["exchangeable_al_cmolc_kg"] = number(draw.choice((0.1, 0.6, 2.5)))
    if _chance(draw, 0.06):
        soil["mg_saturation_pct"] = str(draw.choice((3, 10, 25)))


def _materials(draw: random.Random, made: Draft, *, today: date) -> None:
    """Products known by their label, kinds of prill and of lime, amounts for the whole bed."""
    if _chance(draw, 0.1):
        feed = made.table("feed")
        feed.clear()
        feed.update(_labelled(draw, FEED_LABELS, _FEED_G_M2, called="Feed in the blue bag"))
        if _chance(draw, 0.6):
            feed["times"] = str(draw.randint(1, 4))
    elif made.has("feed") and "form" in made.table("feed") and _chance(draw, 0.3):
        made.table("feed")["n_g_m2_year"] = number(draw.choice((15.0, 30.0, 40.0)))
    if _chance(draw, 0.12):
        labels, rates, called = draw.choice(
            (
                (SULFUR_LABELS, _SULFUR_G_M2, "Sulfur in the yellow bag"),
                (LIME_LABELS, _LIME_G_M2, "Lime in the white bag"),
                (OTHER_LABELS, _OTHER_G_M2, "Tonic in the green bag"),
            )
        )
        keys = _labelled(draw, labels, rates, called=called)
        where = draw.choice(("on_hand", "applied", "claim"))
        if where == "on_hand":
            keys.pop("rate")
        if where == "applied":
            keys["date"] = (today - timedelta(days=draw.choice((20, 200, 500)))).isoformat()
        made.add(where, keys)
    if _chance(draw, 0.12):
        kind, (low, high) = draw.choice(
            ((draw.choice(PRILLS), _SULFUR_G_M2), (draw.choice(LIMES), _LIME_G_M2))
        )
        if _chance(draw, 0.5):
            made.add("on_hand", {"material": quoted(kind)})
        else:
            on = (today - timedelta(days=draw.choice((90, 400, 1200)))).isoformat()
            rate = number(draw.uniform(low, high), 0)
            made.add("applied", {"date": on, "material": quoted(kind), "rate": rate})
    if "area" in made.table("bed") and _chance(draw, 0.1):
        area = float(made.table("bed")["area"])
        for header, keys in made.tables:
            if header in ("[[applied]]", "[[claim]]") and "rate" in keys:
                keys["amount"] = quoted(f"{max(float(keys.pop('rate')) * area, 1.0):.0f} g")


def _labelled(
    draw: random.Random, labels: tuple[str, ...], rates: tuple[float, float], *, called: str
) -> dict[str, Literal]:
    """An entry of a product known by its label."""
    return {
        "material": quoted(called),
        "label": draw.choice(labels),
        "rate": number(draw.uniform(*rates), 0),
    }
