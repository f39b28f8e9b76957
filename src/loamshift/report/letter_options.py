"""Other materials that would bring the same, side by side."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from loamshift.domain.answer import Answer, Option
from loamshift.domain.case import Case
from loamshift.domain.letter import Align, Block, Column, Note, Section, Table
from loamshift.domain.material import MaterialGroup
from loamshift.domain.message import (
    Given,
    Measure,
    Message,
    Product,
    Prose,
    Quantity,
    message,
    number,
    percent,
    prose,
)
from loamshift.domain.message import salt as salt_said
from loamshift.report.bed_names import whole_bed
from loamshift.report.messages import say
from loamshift.report.sources import cited
from loamshift.report.words import Words
from loamshift.report.worth_price import worth_price_said, worth_price_title
from loamshift.tables.magnesium import MAGNESIAN, is_short_of_magnesium
from loamshift.tables.materials import load_materials
from loamshift.tables.parameters import load_parameters

MOST_OPTIONS = 6
_SALT_WORTH_SAYING_DS_M = 0.05
_SALT_HURTS_DS_M = 1.0
"""Salinity in all from which sensitive roots suffer [dS/m]."""

_WEEKS_SAID_IN_YEARS = 92.0

_Cell = Callable[[Option], str]


def ways(
    answer: Answer, case: Case, *, words: Words, numbers: Mapping[str, str] | None = None
) -> Section | None:
    """The options as a table; columns that nobody could fill are left out.

    Parameters
    ----------
    numbers
        Numbers of the sources by their keys; None cites none.
    """
    options = answer.options[:MOST_OPTIONS]
    if not options:
        return None
    timed = any(option.weeks_to_half is not None for option in options)
    columns = [
        (column, cell)
        for column, cell in _columns(answer, case, _one_currency(options), timed, words)
        if any(cell(option) for option in options)
    ]
    rows = tuple(tuple(cell(option) for _, cell in columns) for option in options)
    caption = say(message("options-caption"), words)
    blocks: list[Block] = [Table(tuple(column for column, _ in columns), rows, caption)]
    remarks = _remarks(answer, case, options, numbers or {})
    blocks += [Note(say(text, words), say(label, words)) for label, text in remarks]
    return Section(say(message("options-heading"), words), tuple(blocks))


def _one_currency(options: tuple[Option, ...]) -> str | None:
    """The currency of every price, which then stands in the titles; None where they differ."""
    named = {option.currency for option in options if option.cost is not None}
    return named.pop() if len(named) == 1 else None


def _columns(
    answer: Answer, case: Case, shared: str | None, timed: bool, words: Words
) -> list[tuple[Column, _Cell]]:
    """Every column there may be, with what stands in it for one option."""
    in_currency = Given(shared) if shared else None

    def currency(option: Option) -> str | None:
        return None if shared else option.currency

    def name(option: Option) -> str:
        return say(message("front-apply", product=Product(option.material)), words)

    def rate(option: Option) -> str:
        return words.rate(option.rate_g_m2)

    def amount_of(option: Option) -> str:
        return "" if option.amount_g is None else words.amount(option.amount_g)

    def cost(option: Option) -> str:
        return "" if option.cost is None else words.money(option.cost, currency(option))

    def per_worth(option: Option) -> str:
        return worth_price_said(option, currency(option), words=words)

    def time(option: Option) -> str:
        return half_said(option.weeks_to_half, words) if timed else ""

    def salt(option: Option) -> str:
        rise = option.ec_rise_ds_m
        if rise is None or rise < _SALT_WORTH_SAYING_DS_M:
            return ""
        return say(message("options-salt", rise=salt_said(rise)), words)

    numbers: tuple[tuple[Message, _Cell], ...] = (
        (message("options-column-rate"), rate),
        (message("bed-for-whole", whole=whole_bed(case)), amount_of),
        (message("options-column-cost", currency=in_currency), cost),
        (worth_price_title(answer.dose.direction, shared), per_worth),
        (message("options-column-half"), time),
        (message("options-column-salt"), salt),
    )
    product = Column(say(message("options-column-product"), words))
    return [
        (product, name),
        *((Column(say(title, words), Align.RIGHT), cell) for title, cell in numbers),
    ]


def half_said(weeks: float | None, words: Words) -> str:
    """How long until half of it has reacted [weeks]: ``days``, ``about 9 weeks``.

    None, of which it is only known that it takes long, is said as ``over 3 years``.
    """
    return say(half_time(weeks), words)


def half_time(weeks: float | None) -> Message:
    """The same as a message, from weeks or None."""
    if weeks is None:
        return message("options-half-longer")
    if weeks < 1.0:
        return message("options-half-days")
    if weeks >= _WEEKS_SAID_IN_YEARS:
        return message("options-half-years", years=round(weeks / 52.0))
    return message("options-half-weeks", weeks=Measure(Quantity.WEEKS, weeks))


def _is_sulfur(key: str) -> bool:
    material = load_materials().get(key)
    return material is not None and material.group is MaterialGroup.SULFUR


def _magnesium(
    answer: Answer, case: Case, options: tuple[Option, ...], numbers: Mapping[str, str]
) -> Message | None:
    """That a soil short of magnesium is limed with magnesian lime; None where it is not."""
    soil, rows = case.soil, load_parameters()["advice"]
    if not is_short_of_magnesium(soil) or MAGNESIAN not in {one.material for one in options}:
        return None
    low, found = rows["low_magnesium_mg_kg"], soil.mg_mg_kg
    by_share = found is None or found >= low.value
    row = rows["low_magnesium_pct"] if by_share else low
    told = percent(soil.mg_saturation_pct or 0.0) if by_share else number(found or 0.0)
    planned = MAGNESIAN in {part.material for part in answer.applications}
    return message(
        "options-magnesium",
        unit="percent" if by_share else "mg-kg",
        planned="yes" if planned else "no",
        found=told,
        limit=percent(row.value) if by_share else number(row.value),
        product=Product(MAGNESIAN),
        source=Given(cited(row.source_key, numbers)),
    )


def _remarks(
    answer: Answer, case: Case, options: tuple[Option, ...], numbers: Mapping[str, str]
) -> list[tuple[Message, Prose]]:
    """What columns of the table mean, each under a label."""
    remarks = []
    label = message("options-price-label")
    if any(option.cost_per_mol_acid is not None for option in options):
        remarks.append((label, prose(message("options-price-sulfur"))))
    elif any(option.cost_per_kg_caco3_eq is not None for option in options):
        remarks.append((label, prose(message("options-price-lime"))))
    magnesium = _magnesium(answer, case, options, numbers)
    if magnesium is not None:
        remarks.append((message("options-magnesium-label"), prose(magnesium)))
    salty = [o for o in options if (o.ec_rise_ds_m or 0.0) >= _SALT_WORTH_SAYING_DS_M]
    if salty:
        gypsum = any(_is_sulfur(option.material) for option in salty)
        text = prose(
            message("options-salt-note", limit=salt_said(_SALT_HURTS_DS_M)),
            message("options-salt-gypsum") if gypsum else None,
        )
        remarks.append((message("options-salt-label"), text))
    return remarks
