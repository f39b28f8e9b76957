"""The water-acid card: at the tank, so much of that acid, in this order."""

from __future__ import annotations

from datetime import date

from loamshift.domain.answer import Band
from loamshift.domain.card import Card, CardBlock, CardKind, Log, Part
from loamshift.domain.digits import sensible
from loamshift.domain.letter import Align, Column, Items, Paragraph, Table
from loamshift.domain.water import AcidDose, TankFill, WaterTreatment
from loamshift.report.card.text import cautions_listed, closing
from loamshift.report.words import Quantity, Words
from loamshift.units import OUNCE_G, US_FLUID_OUNCE_ML

_LOG = ("date", "tank", "acid", "strip reads", "by")


def water_card(
    water: WaterTreatment, tank: TankFill, *, day: date | None = None, words: Words
) -> Card:
    """One water with the acid for one tank of it, as a card to hang there.

    Parameters
    ----------
    water
        The water and what it takes [object].
    tank
        The tank and its acid [object].
    day
        The day of the card, or None [date].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Card
        The card [object].
    """
    holds = words.volume(tank.tank_l)
    rows: list[tuple[Part, ...]] = []
    if tank.doses:
        if tank.chosen is None:
            rows.append((_choice(tank, words),))
        steps = Items(tuple(_filled(line, water, tank, words) for line in tank.steps), True)
        never = Items(tuple(words.text(line) for line in tank.never))
        check = Items(tuple(_filled(line, water, tank, words) for line in tank.check))
        rows += [
            (
                Part(heading="In this order", blocks=(steps,)),
                Part(heading="Never", blocks=(never,), care=True),
            ),
            (Part(heading="Then check", blocks=(check,)), _figures(water, tank, words)),
        ]
        rows.append((Part(heading="Filled", blocks=(Log(_LOG),)),))
        whole: tuple[CardBlock, ...] = (cautions_listed(water.cautions, words=words),)
        rows.append((Part(heading="Take care", blocks=whole, care=True),))
    else:
        rows.append((_figures(water, tank, words),))
    comments = Items(tuple(words.text(comment) for comment in water.comments))
    rows.append((Part(heading="To keep in mind", blocks=(comments,), spare=1),))
    return Card(
        kind=CardKind.WATER,
        title=f"Acid for the tank: {holds}" if tank.doses else "The water",
        subtitle=_water(water, words),
        lead=_lead(water, tank, words),
        rows=tuple(rows),
        closing=closing(words),
        elsewhere="what loamshift water prints",
        day=day,
    )


def _water(water: WaterTreatment, words: Words) -> str:
    text = f"Water of {words.say(water.alkalinity_mg_l_as_caco3, Quantity.ALKALINITY)}"
    read = "taken as" if water.ph_start_assumed else "read"
    return f"{text} alkalinity, pH {read} {words.ph(water.ph_start)}. Aim: {water.target}."


def _lead(water: WaterTreatment, tank: TankFill, words: Words) -> str:
    holds = words.volume(tank.tank_l)
    if not tank.doses:
        return "No acid is needed for this target."
    if tank.chosen is None:
        return f"One of these acids to {holds} of water, never two."
    name = words.text(tank.chosen.product)
    text = f"{dose_said(tank.chosen, words)} of {name} to {holds} of water."
    if _is_range(tank.chosen.amount):
        text += " Begin with the least and check."
    return text


def _choice(tank: TankFill, words: Words) -> Part:
    columns = (Column("acid"), Column("amount", Align.RIGHT), Column("remark"))
    rows = tuple(
        (words.text(dose.product), dose_said(dose, words), words.text(dose.remark))
        for dose in tank.doses
    )
    heading = f"For {words.volume(tank.tank_l)}, one of these"
    brief = tuple((name, amount, remark.split("; ")[-1]) for name, amount, remark in rows)
    return Part(heading=heading, blocks=(Table(columns, rows),), brief=(Table(columns, brief),))


def _figures(water: WaterTreatment, tank: TankFill, words: Words) -> Part:
    left = words.say(water.alkalinity_left_mg_l_as_caco3.mid, Quantity.ALKALINITY)
    rows = [
        ("Alkalinity as it comes", words.say(water.alkalinity_mg_l_as_caco3, Quantity.ALKALINITY)),
    ]
    if tank.doses:
        rows.append(("Alkalinity left", left))
        rows.append(("Acid it takes", f"{_band(water.acid_mmolc_l)} mmol/L"))
    chosen = tank.chosen
    if chosen is not None:
        if chosen.adds is not None:
            rows.append((f"Adds {chosen.adds}", f"{sensible(chosen.adds_mg_l or 0.0)} mg/L"))
        if tank.stock_per_l is not None:
            said = f"{_band(tank.stock_per_l)} {chosen.unit} in each litre of stock"
            rows.append((f"Injector at 1:{tank.injector_parts:.0f}", said))
    blocks: list[CardBlock] = [
        Table(
            (Column(""), Column("", Align.RIGHT)),
            tuple((words.text(name), f"**{words.text(said)}**") for name, said in rows),
        )
    ]
    if chosen is not None and chosen.remark:
        blocks.append(Paragraph(words.text(chosen.remark[:1].upper() + chosen.remark[1:] + ".")))
    return Part(heading="The figures", blocks=tuple(blocks))


def _filled(line: str, water: WaterTreatment, tank: TankFill, words: Words) -> str:
    after = water.ph_after
    reads = ""
    if after is not None:
        low, high = words.ph(after.lo90), words.ph(after.hi90)
        reads = f"about {low}" if low == high else f"{low} to {high}"
    chosen = tank.chosen
    left = words.say(water.alkalinity_left_mg_l_as_caco3.mid, Quantity.ALKALINITY)
    return words.text(
        line.format(
            tank=words.volume(tank.tank_l),
            amount="the amount" if chosen is None else f"**{dose_said(chosen, words)}**",
            acid="the one acid chosen" if chosen is None else chosen.product,
            left=f"**{left}**",
            ph=f"**{reads}**",
        )
    )


def dose_said(dose: AcidDose, words: Words) -> str:
    """An amount of acid for a tank [object]; mL or g in any country, as cylinders read [text]."""
    metric = f"{_band(dose.amount)} {dose.unit}"
    if words.units != "us":
        return metric
    per, unit = (US_FLUID_OUNCE_ML, "fl oz") if dose.unit == "mL" else (OUNCE_G, "oz")
    amount = dose.amount
    ounces = Band(lo90=amount.lo90 / per, mid=amount.mid / per, hi90=amount.hi90 / per)
    return f"{_band(ounces)} {unit} ({metric})"


def _is_range(band: Band) -> bool:
    return sensible(band.lo90) != sensible(band.hi90)


def _band(band: Band) -> str:
    if not _is_range(band):
        return sensible(band.mid)
    return f"{sensible(band.lo90)} to {sensible(band.hi90)}"
