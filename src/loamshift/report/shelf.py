"""The shelf for the bed in hand, as sections of a page."""

from __future__ import annotations

from collections.abc import Sequence

from loamshift.core.acidity import CACO3_BASE_MOLC_KG, SULFUR_ACID_MOLC_KG
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
from loamshift.domain.message import message
from loamshift.domain.shelf import BagsCompared, ShelfForBed, ShelfPrice, ShelfWay
from loamshift.report.letter_care import RULES_LINE, caution_label, caution_line
from loamshift.report.letter_options import OVER_THREE_YEARS, half_said
from loamshift.report.letter_words import (
    counted,
    lowered,
    material_called,
    sentence,
    whole,
)
from loamshift.report.messages import say
from loamshift.report.words import Quantity, Words
from loamshift.tables.rules import load_cautions
from loamshift.units import POUND_G

_SALT_WORTH_SAYING_DS_M = 0.05
_SMALLEST_CENT = 0.095
_BY_PLAN = frozenset(("split", "too-early", "over-cap"))
"""Cautions that are about the whole plan rather than about one product; told once below."""


def shelf_letter(shelf: ShelfForBed, names: Sequence[str], case: Case, *, words: Words) -> Letter:
    """What the shelf can do for a bed: one table in the order of the answer, and the care.

    Parameters
    ----------
    shelf
        What the service found [object].
    names
        What the office calls its products, in the order asked about [text].
    case
        The bed [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Letter
        Verdict, table, printed tables beside, and cautions [object].
    """
    answer = shelf.answer
    opening: list[Block] = [Paragraph(sentence(answer.verdict.because, words))]
    if shelf.ways:
        opening.append(_table(shelf, names, case, words))
        opening += [Note(words.text(text), label) for label, text in _remarks(shelf, words)]
    else:
        opening.append(Paragraph(words.text("So nothing on the shelf is compared for it.")))
    if shelf.useless:
        listed = words.listed([_bare(names[place]) for place in shelf.useless])
        way = "raise" if answer.dose.direction is Direction.LIME else "lower"
        if len(shelf.useless) == 1:
            opening.append(Paragraph(f"{listed} does not {way} the pH and is left out here."))
        else:
            opening.append(Paragraph(f"{listed} do not {way} the pH and are left out here."))
    sections = [Section(None, tuple(opening))]
    care = _care(shelf.ways, words)
    if care is not None:
        sections.append(care)
    return Letter(case.name, "", tuple(sections))


def price_said(price: ShelfPrice, *, words: Words) -> str:
    """What the acid of a kilogram of sulfur, or a kilogram of lime, costs in a product.

    Parameters
    ----------
    price
        The product with its price by what it brings [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    str
        ``1.32 GBP per kg of sulfur's worth``; empty without a price [text].
    """
    if price.cost is None:
        return ""
    unit, share = _weight_unit(words)
    of = "sulfur's worth" if price.acid_molc_kg > 0.0 else "lime"
    cost = _small(share * price.cost, price.product.currency, words)
    return words.text(f"{cost} per {unit} of {of}")


def brings_said(price: ShelfPrice, *, words: Words) -> str:
    """What a product brings in open ground, as sulfur or as lime.

    Parameters
    ----------
    price
        The product with what it brings [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    str
        ``acid of 30 kg of sulfur in 100 kg`` [text].
    """
    unit, _ = _weight_unit(words)
    if price.acid_molc_kg > 0.0:
        worth = 100.0 * price.sulfur_worth_frac
        return words.text(f"acid of {_weight(worth)} {unit} of sulfur in 100 {unit}")
    if price.acid_molc_kg < 0.0:
        lime = -100.0 * price.acid_molc_kg / CACO3_BASE_MOLC_KG
        return f"{_weight(lime)} {unit} of pure lime in 100 {unit}"
    label = price.product.material.label
    if label is not None and (label.s_sulfate_pct or label.so3_pct):
        return words.text("no acid: its sulfur is sulfate")
    return "neither acid nor lime"


def bags_said(compared: BagsCompared, names: tuple[str, str], *, words: Words) -> tuple[str, ...]:
    """Two products side by side: which is the cheaper by what it brings, and which the stronger.

    Parameters
    ----------
    compared
        What the service found [object].
    names
        What the office calls them [text].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    tuple of str
        Sentences, the cheaper bag first [text].
    """
    one, other = compared.bags
    if not compared.alike:
        both = zip(names, compared.bags, strict=True)
        each = [f"{_bare(name)}: {brings_said(bag, words=words)}." for name, bag in both]
        each.append("They do not do the same work, so their prices do not compare.")
        return tuple(words.text(one) for one in each)
    said = []
    if compared.cheaper is not None and compared.price_ratio is not None:
        cheap, dear = compared.cheaper, 1 - compared.cheaper
        less = 100.0 * (1.0 - 1.0 / compared.price_ratio)
        said.append(
            f"{_bare(names[cheap])} is the cheaper: "
            f"{price_said(compared.bags[cheap], words=words)}, against "
            f"{price_said(compared.bags[dear], words=words)}. That is {less:.0f}% less."
        )
    elif one.cost is None or other.cost is None:
        said.append("Give both a pack and a price to see which is the cheaper.")
    elif one.product.currency != other.product.currency:
        said.append("Their prices are in two currencies, which are not converted.")
    else:
        said.append("They cost the same for what they bring.")
    if compared.stronger is not None and compared.strength_ratio is not None:
        unit, _ = _weight_unit(words)
        said.append(
            f"1 {unit} of {_bare(names[compared.stronger])} does the work of "
            f"{_weight(compared.strength_ratio)} {unit} of {_bare(names[1 - compared.stronger])}."
        )
    return tuple(words.text(one) for one in said)


def scale_said(*, words: Words) -> str:
    """What sulfur's worth and lime mean, for a reader [object], in two sentences [text]."""
    unit = "pound" if words.units == "us" else "kilogram"
    return words.text(
        f"A {unit} of sulfur's worth is the acid that a {unit} of pure sulfur makes in open "
        f"ground; a {unit} of lime is counted as pure calcium carbonate. Speed and losses come in "
        "with a bed."
    )


def _table(shelf: ShelfForBed, names: Sequence[str], case: Case, words: Words) -> Table:
    lime = shelf.answer.dose.direction is Direction.LIME
    currencies = {way.option.currency for way in shelf.ways if way.option.cost_per_mol_acid}
    currencies |= {way.option.currency for way in shelf.ways if way.option.cost_per_kg_caco3_eq}
    shared = currencies.pop() if len(currencies) == 1 else None
    price = f", {shared}" if shared else ""
    unit, share = _weight_unit(words)
    rows = []
    for way in shelf.ways:
        option = way.option
        currency = None if shared else option.currency
        per = option.cost_per_kg_caco3_eq if lime else option.cost_per_mol_acid
        scale = share if lime else share * SULFUR_ACID_MOLC_KG
        rows.append(
            (
                _name(way, names, words),
                words.rate(option.rate_g_m2),
                "" if option.amount_g is None else words.amount(option.amount_g),
                "" if way.packs is None else str(way.packs),
                "" if option.cost is None else words.money(option.cost, currency),
                "" if per is None else _small(scale * per, currency, words),
                half_said(option.weeks_to_half, words) or OVER_THREE_YEARS,
                _salt(option, words),
                _mind(option, words),
            )
        )
    of = "lime" if lime else words.text("sulfur's worth")
    columns = (
        Column("product"),
        Column("rate", Align.RIGHT),
        Column(f"for {whole(case)}", Align.RIGHT),
        Column("packs", Align.RIGHT),
        Column(f"cost{price}", Align.RIGHT),
        Column(f"per {unit} of {of}{price}", Align.RIGHT),
        Column("half works in", Align.RIGHT),
        Column("salt, dS/m", Align.RIGHT),
        Column("mind"),
    )
    filled = [i for i in range(len(columns)) if i == 0 or any(row[i] for row in rows)]
    return Table(
        tuple(columns[i] for i in filled), tuple(tuple(row[i] for i in filled) for row in rows)
    )


def _name(way: ShelfWay, names: Sequence[str], words: Words) -> str:
    if way.place is None:
        called = material_called(way.option.material, words).split(" (")[0]
        return f"{called}, not on the shelf"
    return f"**{_bare(names[way.place])}**"


def _bare(name: str) -> str:
    """A name somebody gave, without the stars that would make it bold."""
    return name.replace("*", "").strip() or "?"


def _salt(option: Option, words: Words) -> str:
    rise = option.ec_rise_ds_m
    if rise is None or rise < _SALT_WORTH_SAYING_DS_M:
        return ""
    return f"+{words.say(rise, Quantity.EC).removesuffix(' dS/m')}"


def _mind(option: Option, words: Words) -> str:
    """The short names of what to mind with one product; the texts stand below the table."""
    codes = [code for code in option.cautions if code not in _BY_PLAN]
    if "over-cap" in option.cautions:
        codes.insert(0, "over-cap")
    said = [caution_label(code, words=words) for code in codes]
    return ", ".join([said[0], *(lowered(one) for one in said[1:])]) if said else ""


def _remarks(shelf: ShelfForBed, words: Words) -> list[tuple[str, str]]:
    remarks = []
    spread = shelf.answer.dose.published_g_m2
    if spread is not None:
        what = "lime" if shelf.answer.dose.direction is Direction.LIME else "sulfur"
        remarks.append(
            (
                "Printed tables",
                f"For such a soil and step {counted(spread.n_sources, 'printed table')} "
                f"{'says' if spread.n_sources == 1 else 'say'} {words.rate(spread.low)} to "
                f"{words.rate(spread.high)} of {what}.",
            )
        )
    remarks.append(
        (
            "The order",
            "What has a price stands first, the cheapest by what it does within a year or by the "
            "day wanted; then the rest, the gentlest first. What passes the limits of three "
            "seasons, or burns, stands last.",
        )
    )
    remarks.append(("The rate", "It is the whole need; the letter says in which parts it goes on."))
    return remarks


def _care(ways: Sequence[ShelfWay], words: Words) -> Section | None:
    codes = dict.fromkeys(code for way in ways for code in way.option.cautions)
    rules = load_cautions()
    told = [
        Caution(code=code, text=rules[code].text, source_key=None)
        for code in rules
        if code in codes
    ]
    if not told:
        return None
    items = tuple(caution_line(one, words=words) for one in told)
    title = say(message("caution-title"), words)
    return Section(title, (Items(items), Paragraph(say(RULES_LINE, words))), Matter.CARE)


def _weight(value: float) -> str:
    """Two or three digits: 3.3, 30, 98, 156."""
    return f"{value:.0f}" if value >= 10.0 else f"{value:.2g}"


def _weight_unit(words: Words) -> tuple[str, float]:
    return ("lb", POUND_G / 1000.0) if words.units == "us" else ("kg", 1.0)


def _small(value: float, currency: str | None, words: Words) -> str:
    if value >= _SMALLEST_CENT:
        return words.money(value, currency)
    return f"{value:.3f}" + (f" {currency}" if currency else "")
