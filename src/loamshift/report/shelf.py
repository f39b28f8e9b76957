"""Products for one bed as sections of a page, and what each brings and costs whatever the bed."""

from __future__ import annotations

from collections.abc import Sequence

from loamshift.core.acidity import CACO3_BASE_MOLC_KG
from loamshift.domain.answer import Caution, Direction, Option
from loamshift.domain.case import Case
from loamshift.domain.letter import (
    Align,
    Block,
    Column,
    Items,
    Letter,
    Matter,
    Note,
    Paragraph,
    Section,
    Table,
)
from loamshift.domain.message import (
    Given,
    Listed,
    Measure,
    Message,
    Product,
    Quantity,
    amount,
    message,
    prose,
    rate,
)
from loamshift.domain.message import salt as salt_said
from loamshift.domain.shelf import BagsCompared, ShelfForBed, ShelfPrice, ShelfWay
from loamshift.report.bed_names import whole_bed
from loamshift.report.letter_care import RULES_LINE, caution_label, caution_line
from loamshift.report.letter_options import half_said
from loamshift.report.messages import say, say_sentence
from loamshift.report.words import Words
from loamshift.report.worth_price import weight_unit_g, worth_price_said, worth_price_title
from loamshift.tables.rules import caution_text, load_cautions

_SALT_WORTH_SAYING_DS_M = 0.05
_BY_PLAN = frozenset(("split", "too-early", "over-cap"))
"""Cautions about the whole plan rather than about one product, which stand once below."""


def shelf_letter(shelf: ShelfForBed, names: Sequence[str], case: Case, *, words: Words) -> Letter:
    """What the products can do for a bed: one table in the order of the answer, and the cautions.

    Parameters
    ----------
    names
        What the office calls its products, in the order asked about.
    """
    answer = shelf.answer
    opening: list[Block] = [Paragraph(say_sentence(answer.verdict.because, words))]
    if shelf.useless:
        left_out = message(
            "products-left-out",
            direction=_way(answer.dose.direction),
            products=Listed(tuple(_named(names[place]) for place in shelf.useless)),
        )
        opening.append(Paragraph(say(left_out, words)))
    if shelf.ways:
        opening.append(_table(shelf, names, case, words))
        opening += [
            Note(say(text, words), say(label, words)) for label, text in _notes(shelf, case)
        ]
    else:
        opening.append(Paragraph(say(message("products-nothing-to-compare"), words)))
    sections = [Section(None, tuple(opening))]
    care = _care(shelf.ways, words)
    if care is not None:
        sections.append(care)
    return Letter(case.name, "", tuple(sections))


def price_said(price: ShelfPrice, *, words: Words) -> str:
    """What a kilogram, or a pound, of pure sulfur's or pure lime's worth costs in a product.

    Parameters
    ----------
    price
        The product with its price by what it brings.

    Returns
    -------
    str
        ``1.32 GBP per kg of sulphur's worth of acid``; empty without a price.
    """
    cost = _cost(price, words)
    if cost is None:
        return ""
    if price.acid_molc_kg > 0.0:
        return say(message("products-price-sulfur", cost=cost), words)
    return say(message("products-price-lime", cost=cost), words)


def brings_said(price: ShelfPrice, *, words: Words) -> str:
    """What a product brings in open ground, as sulfur or as lime."""
    return say(_brings(price, words), words)


def bags_said(compared: BagsCompared, names: tuple[str, str], *, words: Words) -> tuple[str, ...]:
    """Two products side by side: which is the cheaper by what it brings, and which the stronger."""
    one, other = (_named(name) for name in names)
    if compared.alike:
        told = [_costs(compared, one, other, words), *_strengths(compared, (one, other), words)]
    else:
        told = [
            message("products-one-brings", product=name, brings=_brings(bag, words))
            for name, bag in zip((one, other), compared.bags, strict=True)
        ]
        told.append(message("products-different-work"))
    return tuple(say(sentence, words) for sentence in told)


def scale_said(*, words: Words) -> str:
    """What sulfur's worth and lime's worth mean, for a reader, in sentences."""
    scale = prose(
        message("products-scale-sulfur"),
        message("products-scale-lime"),
        message("products-scale-bed"),
    )
    return say(scale, words)


def _cost(price: ShelfPrice, words: Words) -> Given | None:
    """What a kilogram or a pound of worth costs, with its currency."""
    if price.cost is None:
        return None
    cost = price.cost * weight_unit_g(words) / 1000.0
    return Given(words.unit_price(cost, price.product.currency))


def _brings(price: ShelfPrice, words: Words) -> Message:
    hundred_g = 100.0 * weight_unit_g(words)
    if price.acid_molc_kg > 0.0:
        worth = amount(hundred_g * price.sulfur_worth_frac)
        return message("products-brings-sulfur", worth=worth)
    if price.acid_molc_kg < 0.0:
        worth = amount(hundred_g * -price.acid_molc_kg / CACO3_BASE_MOLC_KG)
        return message("products-brings-lime", worth=worth)
    label = price.product.material.label
    if label is not None and (label.s_sulfate_pct or label.so3_pct):
        return message("products-brings-sulfate")
    return message("products-brings-nothing")


def _costs(compared: BagsCompared, one: Given, other: Given, words: Words) -> Message:
    """Which of two products that do the same work is the cheaper, or why nobody can say."""
    first, second = compared.bags
    costs = [_cost(bag, words) for bag in compared.bags]
    of = "sulfur" if first.acid_molc_kg > 0.0 else "lime"
    if compared.cheaper is not None and compared.price_ratio is not None:
        cheap, dear = compared.cheaper, 1 - compared.cheaper
        named = (one, other)
        return message(
            "products-cheaper",
            of=of,
            product=named[cheap],
            cost=costs[cheap],
            other=named[dear],
            dear=costs[dear],
            less=Measure(Quantity.SHARE, 1.0 - 1.0 / compared.price_ratio),
        )
    if first.cost is None or second.cost is None:
        return message("products-no-price")
    if first.product.currency != second.product.currency:
        return message("products-two-currencies")
    return message("products-same-cost", of=of)


def _strengths(compared: BagsCompared, named: tuple[Given, Given], words: Words) -> list[Message]:
    if compared.stronger is None or compared.strength_ratio is None:
        return []
    weight = amount(compared.strength_ratio * weight_unit_g(words))
    strong, weak = named[compared.stronger], named[1 - compared.stronger]
    return [message("products-stronger", product=strong, weight=weight, other=weak)]


def _way(direction: Direction) -> str:
    return "lime" if direction is Direction.LIME else "acidify"


def _table(shelf: ShelfForBed, names: Sequence[str], case: Case, words: Words) -> Table:
    direction = shelf.answer.dose.direction
    currencies = {way.option.currency for way in shelf.ways if way.option.cost is not None}
    currencies |= {
        way.option.currency for way in shelf.ways if worth_price_said(way.option, None, words=words)
    }
    shared = currencies.pop() if len(currencies) == 1 else None
    in_currency = Given(shared) if shared else None
    rows = []
    for way in shelf.ways:
        option = way.option
        currency = None if shared else option.currency
        rows.append(
            (
                _called(way, names, words),
                words.rate(option.rate_g_m2),
                "" if option.amount_g is None else words.amount(option.amount_g),
                "" if way.packs is None else str(way.packs),
                "" if option.cost is None else words.money(option.cost, currency),
                worth_price_said(option, currency, words=words),
                half_said(option.weeks_to_half, words),
                _salt(option, words),
                _precautions(option, words),
            )
        )
    left, right = Align.LEFT, Align.RIGHT
    titles = (
        (message("options-column-product"), left),
        (message("options-column-rate"), right),
        (message("bed-for-whole", whole=whole_bed(case)), right),
        (message("products-column-packs"), right),
        (message("products-column-cost", currency=in_currency), right),
        (worth_price_title(direction, shared), right),
        (message("options-column-half"), right),
        (message("options-column-salt"), right),
        (message("products-column-precautions"), left),
    )
    columns = tuple(Column(say(title, words), align) for title, align in titles)
    filled = [i for i in range(len(columns)) if i == 0 or any(row[i] for row in rows)]
    return Table(
        tuple(columns[i] for i in filled), tuple(tuple(row[i] for i in filled) for row in rows)
    )


def _called(way: ShelfWay, names: Sequence[str], words: Words) -> str:
    if way.place is None:
        return say(message("products-not-yours", product=Product(way.option.material)), words)
    return f"**{_named(names[way.place]).text}**"


def _named(name: str) -> Given:
    """A name somebody gave, without the stars that would make it bold."""
    return Given(name.replace("*", "").strip() or "?")


def _salt(option: Option, words: Words) -> str:
    rise = option.ec_rise_ds_m
    if rise is None or rise < _SALT_WORTH_SAYING_DS_M:
        return ""
    return say(message("options-salt", rise=salt_said(rise)), words)


def _precautions(option: Option, words: Words) -> str:
    """The short names of the cautions of one product; their texts stand below the table."""
    codes = [code for code in option.cautions if code not in _BY_PLAN]
    if "over-cap" in option.cautions:
        codes.insert(0, "over-cap")
    return ", ".join(caution_label(code, words=words) for code in codes)


def _notes(shelf: ShelfForBed, case: Case) -> list[tuple[Message, Message]]:
    """What stands below the table, each text under its label."""
    notes = []
    spread = shelf.answer.dose.published_g_m2
    if spread is not None and spread.n_sources > 0:
        published = message(
            "need-published",
            of="lime" if shelf.answer.dose.direction is Direction.LIME else "sulfur",
            n=spread.n_sources,
            range=rate(spread.low, high=spread.high),
        )
        notes.append((message("products-published-label"), published))
    notes.append((message("products-order-label"), message("products-order", by=case.aim.by)))
    notes.append((message("products-rate-label"), message("products-rate")))
    return notes


def _care(ways: Sequence[ShelfWay], words: Words) -> Section | None:
    codes = dict.fromkeys(code for way in ways for code in way.option.cautions)
    rules = load_cautions()
    told = [
        Caution(code=code, text=caution_text(rules[code], codes), source_key=None)
        for code in rules
        if code in codes
    ]
    if not told:
        return None
    items = tuple(caution_line(one, words=words) for one in told)
    title = say(message("caution-title"), words)
    return Section(title, (Items(items), Paragraph(say(RULES_LINE, words))), Matter.CARE)
