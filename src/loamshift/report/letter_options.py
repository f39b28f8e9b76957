"""Other materials that would bring the same, side by side."""

from __future__ import annotations

from collections.abc import Callable

from loamshift.domain.answer import Answer, Direction, Option
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Block, Column, Note, Section, Table
from loamshift.domain.material import MaterialGroup
from loamshift.report.letter_words import material_called, whole
from loamshift.report.words import Quantity, Words
from loamshift.tables.materials import load_materials
from loamshift.units import POUND_G, SULFUR_G_PER_MMOLC

MOST_OPTIONS = 6
OVER_THREE_YEARS = "over 3 years"
_SALT_WORTH_SAYING_DS_M = 0.05

_EC_UNIT = " dS/m"
_WEEKS_SAID_IN_YEARS = 92.0

_Cell = Callable[[Option], str]


def ways(answer: Answer, case: Case, *, words: Words) -> Section | None:
    """The options as a table; columns that nobody could fill are left out.

    Parameters
    ----------
    answer
        The answer [object].
    case
        The bed it is about [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Section or None
        Nothing where there are no options [object].
    """
    options = answer.options[:MOST_OPTIONS]
    if not options:
        return None
    timed = any(option.weeks_to_half is not None for option in options)
    columns = [
        (column, cell)
        for column, cell in _columns(case, _one_currency(options), timed, words)
        if any(cell(option) for option in options)
    ]
    rows = tuple(tuple(cell(option) for _, cell in columns) for option in options)
    what = "lime" if answer.dose.direction is Direction.LIME else "acid"
    caption = f"Each would bring the same {what}"
    blocks: list[Block] = [Table(tuple(column for column, _ in columns), rows, caption)]
    blocks += [Note(words.text(text), label) for label, text in _remarks(options, words)]
    return Section(f"What brings the {what}", tuple(blocks))


def _one_currency(options: tuple[Option, ...]) -> str | None:
    """The currency of every price, which then stands in the titles; None where they differ."""
    named = {option.currency for option in options if option.cost is not None}
    return named.pop() if len(named) == 1 else None


def _columns(
    case: Case, shared: str | None, timed: bool, words: Words
) -> list[tuple[Column, _Cell]]:
    """Every column there may be, with what stands in it for one option."""
    price = f", {shared}" if shared else ""

    def currency(option: Option) -> str | None:
        return None if shared else option.currency

    def name(option: Option) -> str:
        return material_called(option.material, words)

    def rate(option: Option) -> str:
        return words.rate(option.rate_g_m2)

    def amount(option: Option) -> str:
        return "" if option.amount_g is None else words.amount(option.amount_g)

    def cost(option: Option) -> str:
        return "" if option.cost is None else words.money(option.cost, currency(option))

    def per_mole(option: Option) -> str:
        return _small_money(option.cost_per_mol_acid, currency(option), words)

    def per_lime(option: Option) -> str:
        cost_kg = option.cost_per_kg_caco3_eq
        if cost_kg is None:
            return ""
        return _small_money(cost_kg * _lime_unit(words)[1], currency(option), words)

    def time(option: Option) -> str:
        return half_said(option.weeks_to_half, words) or (OVER_THREE_YEARS if timed else "")

    def salt(option: Option) -> str:
        rise = option.ec_rise_ds_m
        if rise is None or rise < _SALT_WORTH_SAYING_DS_M:
            return ""
        return f"+{words.say(rise, Quantity.EC).removesuffix(_EC_UNIT)}"

    numbers: tuple[tuple[str, _Cell], ...] = (
        ("rate", rate),
        (f"for {whole(case)}", amount),
        (f"cost{price}", cost),
        (f"per mole{price}", per_mole),
        (f"per {_lime_unit(words)[0]} of lime{price}", per_lime),
        ("half works in", time),
        (f"salt,{_EC_UNIT}", salt),
    )
    return [(Column("material"), name), *((Column(t, Align.RIGHT), c) for t, c in numbers)]


def half_said(weeks: float | None, words: Words) -> str:
    """How long half of it takes to work [weeks]: ``days``, ``about 9 weeks``; empty for None."""
    if weeks is None:
        return ""
    if weeks < 1.0:
        return "days"
    if weeks >= _WEEKS_SAID_IN_YEARS:
        return f"about {weeks / 52.0:.0f} years"
    return f"about {words.say(weeks, Quantity.WEEKS)}"


def _lime_unit(words: Words) -> tuple[str, float]:
    """The weight that lime is compared by, and its share of a kilogram."""
    return ("lb", POUND_G / 1000.0) if words.units == "us" else ("kg", 1.0)


def _is_sulfur(key: str) -> bool:
    material = load_materials().get(key)
    return material is not None and material.group is MaterialGroup.SULFUR


def _small_money(value: float | None, currency: str | None, words: Words) -> str:
    if value is None:
        return ""
    if value >= 0.095:
        return words.money(value, currency)
    return f"{value:.3f}" + (f" {currency}" if currency else "")


def _remarks(options: tuple[Option, ...], words: Words) -> list[tuple[str, str]]:
    """What each column of the table means, under a label."""
    remarks = []
    if any(option.cost_per_mol_acid is not None for option in options):
        sulfur = words.amount(1000.0 * SULFUR_G_PER_MMOLC)
        remarks.append(
            (
                "Price",
                f"Compare by the mole of acid ({sulfur} of sulfur makes one), not by the bag.",
            )
        )
    elif any(option.cost_per_kg_caco3_eq is not None for option in options):
        unit = "pound" if words.units == "us" else "kilogram"
        text = f"Compare by the {unit} of lime, counted as pure calcium carbonate, not by the bag."
        remarks.append(("Price", text))
    salty = [o for o in options if (o.ec_rise_ds_m or 0.0) >= _SALT_WORTH_SAYING_DS_M]
    if salty:
        text = (
            "How far the conductivity of the wet soil may rise until rain has washed it down. "
            "Sensitive roots suffer from about 1 dS/m in all"
        )
        gypsum = any(_is_sulfur(option.material) for option in salty)
        text += ", but what sulfur makes is gypsum, which they bear better." if gypsum else "."
        remarks.append(("Salt", text))
    return remarks
