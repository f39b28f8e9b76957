"""Pot or ground: both over five years, side by side."""

from __future__ import annotations

from collections.abc import Mapping

from loamshift.domain.answer import Answer
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Block, Column, Note, Paragraph, Section, Table
from loamshift.domain.message import (
    Given,
    Listed,
    Measure,
    Message,
    Product,
    Quantity,
    amount,
    in_100,
    message,
    number,
    ph,
)
from loamshift.domain.pot import (
    NeededItem,
    PlantingNeed,
    PlantingPlace,
    PlantingWay,
    PotOrGround,
)
from loamshift.report.letter_checks import cited
from loamshift.report.letter_words import sentence
from loamshift.report.messages import say
from loamshift.report.words import Words

_YEARS_SHOWN = (1, 5)


def pot_or_ground(
    answer: Answer, case: Case, *, numbers: Mapping[str, str], words: Words
) -> Section | None:
    """The comparison of pots with the ground; None where there is none.

    Parameters
    ----------
    numbers
        Numbers of the sources by their keys.
    """
    found = answer.pot_or_ground
    if found is None:
        return None
    blocks: list[Block] = [
        Paragraph(sentence(found.words, words)),
        _table(found, words),
        Note(_assumed(found, case, numbers, words), say(message("pot-assumed-label"), words)),
    ]
    return Section(say(message("pot-title"), words), tuple(blocks))


def _table(found: PotOrGround, words: Words) -> Table:
    heads = [_place(one, found) for one in found.ways]
    columns = (
        Column("", Align.LEFT),
        *(Column(say(message("pot-head", place=head), words), Align.RIGHT) for head in heads),
    )
    lasting = [_lasts(one, found, words) for one in found.ways]
    rows = [
        ("pot-row-buy", [_to_buy(one, words) for one in found.ways]),
        ("pot-row-cost", [_cost(one, words) for one in found.ways]),
        ("pot-row-hours", [_hours(one, words) for one in found.ways]),
        ("pot-row-lasts", lasting),
    ]
    told = [(say(message(key), words), *cells) for key, cells in rows]
    for year in _YEARS_SHOWN:
        head = say(message("pot-row-year", year=year), words)
        told.append((head, *(words.measure(in_100(one.in_range[year - 1])) for one in found.ways)))
    return Table(columns, tuple(told), say(message("pot-caption"), words))


def _place(way: PlantingWay, found: PotOrGround) -> str:
    mains = way.place is PlantingPlace.POT and not found.water_known
    return "pot-mains" if mains else way.place.value


def _to_buy(way: PlantingWay, words: Words) -> str:
    if way.hours is None:
        return say(message("pot-none"), words)
    if not way.needs:
        return say(message("pot-nothing"), words)
    return words.listed([say(_need(one), words) for one in way.needs])


def _need(need: PlantingNeed) -> Message:
    if need.item is NeededItem.POTS:
        return message("pot-need-pots", count=round(need.amount))
    if need.item is NeededItem.MIX:
        return message("pot-need-mix", litres=Measure(Quantity.VOLUME, need.amount))
    return message(
        "pot-need-product", amount=amount(need.amount), product=Product(need.material or "")
    )


def _cost(way: PlantingWay, words: Words) -> str:
    if way.hours is None:
        return say(message("pot-none"), words)
    if not way.needs:
        return words.money(0.0, way.currency)
    if way.cost is None:
        return say(message("pot-no-price"), words)
    money = words.money(way.cost, way.currency)
    missing = tuple(
        message("pot-unpriced", item=one.item.value) for one in way.needs if one.cost is None
    )
    if not missing:
        return money
    return say(message("pot-cost-part", cost=Given(money), unpriced=Listed(missing)), words)


def _hours(way: PlantingWay, words: Words) -> str:
    if way.hours is None:
        return say(message("pot-none"), words)
    return words.measure(number(_rounded(way.hours)))


def _rounded(hours: float) -> float:
    """Hours to two figures at most, for nobody times them better [h]."""
    return float(f"{hours:.2g}") if hours >= 1.0 else round(hours, 1)


def _lasts(way: PlantingWay, found: PotOrGround, words: Words) -> str:
    if way.hours is None:
        return say(message("pot-none"), words)
    years = way.lasts_years
    if years is None:
        return say(message("pot-lasts-longer", years=number(float(found.years))), words)
    if years < 1.0:
        return say(message("pot-lasts-never"), words)
    return words.measure(number(round(years, 1)))


def _assumed(found: PotOrGround, case: Case, numbers: Mapping[str, str], words: Words) -> str:
    told = [
        say(
            message(
                "pot-assumed",
                pots=found.pots,
                area=Measure(Quantity.AREA, 1.0),
                counted="no" if case.bed.plants is None else "yes",
                volume=Measure(Quantity.VOLUME, found.volume_l),
                medium=found.medium.value.replace(" ", "-"),
                ph=ph(found.mix_ph),
                renewed=Given(cited("rhs-containers", numbers)),
            ),
            words,
        )
    ]
    ground = found.way(PlantingPlace.GROUND)
    if ground is not None and any(one.item is NeededItem.PRODUCT for one in ground.needs):
        told.append(say(message("pot-ground-treated"), words))
    if not found.water_known:
        told.append(say(message("pot-mains"), words))
    if found.way(PlantingPlace.POT_WITH_RAINWATER) is not None:
        told.append(say(message("pot-hard-water"), words))
    told.append(say(message("pot-times"), words))
    return " ".join(told)
