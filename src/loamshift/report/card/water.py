"""The water-acid card: at the tank, so much of that acid, in this order."""

from __future__ import annotations

from datetime import date

from loamshift.domain.card import Card, CardBlock, CardKind, Log, Part
from loamshift.domain.digits import sensible
from loamshift.domain.letter import Align, Column, Items, Paragraph, Table
from loamshift.domain.message import (
    Measure,
    Message,
    Prose,
    Quantity,
    alkalinity,
    message,
    number,
    ph,
    prose,
)
from loamshift.domain.water import AcidDose, TankFill, WaterTreatment
from loamshift.report.card.text import cautions_listed, closing
from loamshift.report.messages import say, say_each
from loamshift.report.water import acid_said
from loamshift.report.words import Words

_LOG = ("water-log-date", "water-log-tank", "water-log-acid", "water-log-reads", "water-log-by")


def water_card(
    water: WaterTreatment, tank: TankFill, *, day: date | None = None, words: Words
) -> Card:
    """One water with the acid for one tank of it, as a card to hang there.

    Parameters
    ----------
    day
        The day of the card, or None.
    """
    rows: list[tuple[Part, ...]] = []
    if tank.doses:
        if tank.chosen is None:
            rows.append((_choice(tank, words),))
        steps = Items(tuple(say_each(tank.steps, words)), numbered=True)
        never = Items(tuple(say_each(tank.never, words)))
        check = Items(tuple(say_each(tank.check, words)))
        rows += [
            (
                _part(message("water-card-steps"), words, steps),
                _part(message("water-card-never"), words, never, care=True),
            ),
            (_part(message("water-card-check"), words, check), _figures(water, tank, words)),
        ]
        log = Log(tuple(say(Message(key), words) for key in _LOG))
        rows.append((_part(message("water-card-filled"), words, log),))
        cautions = cautions_listed(water.cautions, words=words)
        rows.append((_part(message("water-card-care"), words, cautions, care=True),))
    else:
        rows.append((_figures(water, tank, words),))
    comments = Items(tuple(say_each(water.comments, words)))
    rows.append((_part(message("water-keep-in-mind"), words, comments, spare=1),))
    holds = Measure(Quantity.VOLUME, tank.tank_l)
    title = message("water-card-title", tank=holds) if tank.doses else message("water-title")
    return Card(
        kind=CardKind.WATER,
        title=say(title, words),
        subtitle=say(_water(water), words),
        lead=say(_lead(tank, holds), words),
        rows=tuple(rows),
        closing=closing(words),
        elsewhere=say(message("water-card-elsewhere"), words),
        day=day,
    )


def _part(
    heading: Message, words: Words, *blocks: CardBlock, care: bool = False, spare: int = 0
) -> Part:
    return Part(heading=say(heading, words), blocks=blocks, care=care, spare=spare)


def _water(water: WaterTreatment) -> Prose:
    has = message(
        "water-card-water",
        assumed="yes" if water.ph_start_assumed else "no",
        alkalinity=alkalinity(water.alkalinity_mg_l_as_caco3),
        ph=ph(water.ph_start),
    )
    return prose(has, water.target)


def _lead(tank: TankFill, holds: Measure) -> Message | Prose:
    if not tank.doses:
        return message("water-card-no-acid")
    if tank.chosen is None:
        return message("water-card-one", tank=holds)
    dose = message("water-card-dose", dose=tank.chosen.said, acid=tank.chosen.called, tank=holds)
    return prose(dose, message("water-card-least") if _is_range(tank.chosen) else None)


def _choice(tank: TankFill, words: Words) -> Part:
    columns = (
        Column(say(message("water-column-acid"), words)),
        Column(say(message("water-column-amount"), words), Align.RIGHT),
        Column(say(message("water-column-remark"), words)),
    )
    whole = tuple(_row(dose, dose.remark, words) for dose in tank.doses)
    brief = tuple(_row(dose, Prose(dose.remark.sentences[-1:]), words) for dose in tank.doses)
    heading = message("water-card-choice", tank=Measure(Quantity.VOLUME, tank.tank_l))
    return Part(
        heading=say(heading, words),
        blocks=(Table(columns, whole),),
        brief=(Table(columns, brief),),
    )


def _row(dose: AcidDose, remark: Prose, words: Words) -> tuple[str, str, str]:
    return say(dose.called, words), say(dose.said, words), say(remark, words)


def _figures(water: WaterTreatment, tank: TankFill, words: Words) -> Part:
    has = alkalinity(water.alkalinity_mg_l_as_caco3)
    rows = [(message("water-figure-alkalinity"), words.measure(has))]
    if tank.doses:
        left = alkalinity(water.alkalinity_left_mg_l_as_caco3.mid)
        acid, acid_range = acid_said(water)
        rows.append((message("water-figure-left"), words.measure(left)))
        rows.append((message("water-figure-acid"), words.measure(acid_range or acid)))
    chosen = tank.chosen
    if chosen is not None and chosen.adds is not None:
        adds = Measure(Quantity.IN_WATER, chosen.adds_mg_l or 0.0)
        label = message("water-figure-adds", nutrient=chosen.adds.lower())
        rows.append((label, words.measure(adds)))
    if chosen is not None and tank.stock_per_l is not None:
        kind = Quantity.GRAMS if chosen.unit == "g" else Quantity.ML
        stock = Measure(kind, tank.stock_per_l.lo90, tank.stock_per_l.hi90)
        label = message("water-figure-injector", parts=number(tank.injector_parts))
        rows.append((label, say(message("water-figure-stock", stock=stock), words)))
    blocks: list[CardBlock] = [
        Table(
            (Column(""), Column("", Align.RIGHT)),
            tuple((say(label, words), f"**{said}**") for label, said in rows),
        )
    ]
    if chosen is not None and chosen.remark:
        blocks.append(Paragraph(say(chosen.remark, words)))
    return _part(message("water-card-figures"), words, *blocks)


def _is_range(dose: AcidDose) -> bool:
    return sensible(dose.amount.lo90) != sensible(dose.amount.hi90)
