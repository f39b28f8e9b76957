"""A field map as a letter: what to spread where, what the mean would cost, how far to trust it."""

from __future__ import annotations

from itertools import pairwise
from typing import Final

from loamshift import __version__
from loamshift.domain.answer import Caution
from loamshift.domain.decision import Direction
from loamshift.domain.field import FieldMap, NoMap, WayOfDosing
from loamshift.domain.letter import (
    Align,
    Block,
    Column,
    Items,
    Letter,
    Matter,
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
    number,
    ph,
    ph_mean,
    plants,
    rate,
)
from loamshift.report.figures.field import ph_figure, rates_figure, zones_table
from loamshift.report.letter_care import RULES_LINE, caution_line
from loamshift.report.letter_words import sentence
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.tables.parameters import parameter_values

SAME: Final = 0.005
"""Shares of a field that differ by less are said to be the same [0-1]."""


def field_letter(found: FieldMap, *, words: Words, door: str = "command") -> Letter:
    """Everything about a field, for the terminal, a page or paper.

    Parameters
    ----------
    door
        Where its reader would say more of the field: command or pages.
    """
    words = words.on("field")
    zones: list[Block] = [
        rates_figure(found, words=words),
        zones_table(found, words=words),
        *(Paragraph(say(one, words)) for one in _uneven(found)),
        Paragraph(say(message("map-static"), words)),
    ]
    sections = [
        Section(None, _opening(found, words), Matter.OPENING),
        Section(say(message("map-heading-zones"), words), tuple(zones)),
        Section(say(message("map-heading-mean"), words), _mean(found, words)),
        *_trust(found, words),
        Section(say(message("map-heading-more"), words), _more(found, words, door)),
    ]
    if found.notes:
        notes = Items(tuple(say(one, words) for one in found.notes))
        sections.append(Section(say(message("map-heading-checks"), words), (notes,)))
    sections.append(_care(found, words))
    colophon = message(
        "map-colophon",
        version=Given(__version__),
        day=found.today,
        cell=number(found.field.grid.cell_m),
    )
    sections.append(Section(None, (Paragraph(say(colophon, words)),), Matter.COLOPHON))
    return Letter(
        title=say(message("map-title", name=Given(found.field.name)), words),
        subtitle=say(_about(found), words),
        sections=tuple(sections),
        day=found.today,
    )


def field_cautions(found: FieldMap) -> tuple[Caution, ...]:
    """Cautions of every zone, each once; those of handling first."""
    every = {one.code: one for zone in found.zones for one in zone.cautions}
    return tuple(sorted(every.values(), key=lambda one: not one.handling))


def field_lead(found: FieldMap) -> Message:
    """What goes on, and how much of the field goes without."""
    on = sum(zone.area_m2 for zone in found.zones if zone.rate_g_m2 > 0.0)
    off = sum(zone.area_m2 for zone in found.zones if zone.rate_g_m2 <= 0.0)
    if found.material is None or on <= 0.0:
        return message("map-lead-nothing")
    if len(found.zones) == 1:
        return message(
            "map-lead-one",
            amount=amount(found.by_zones.now_g),
            material=Product(found.material),
            area=Measure(Quantity.AREA, on),
            rate=rate(found.zones[0].rate_g_m2),
        )
    return message(
        "map-lead",
        amount=amount(found.by_zones.now_g),
        material=Product(found.material),
        on=Measure(Quantity.AREA, on),
        off=Measure(Quantity.AREA, off) if off > 0.0 else None,
    )


def _about(found: FieldMap) -> Message:
    return message(
        "map-subtitle",
        day=found.today,
        area=Measure(Quantity.AREA, found.field.area_m2),
        samples=len(found.field.samples),
        ph=ph(found.mean_ph),
        sd=ph(found.spread_ph),
        plants=plants(found.plants) if found.plants else None,
        aim=ph(found.ph_aim),
        range=ph(found.ph_low, high=found.ph_high),
        crs=Given(found.field.crs),
    )


def _opening(found: FieldMap, words: Words) -> tuple[Block, ...]:
    told: list[Block] = [Paragraph(f"**{say(field_lead(found), words)}**")]
    if found.no_map is not None:
        by_zones = found.field.zones and found.no_map is not NoMap.DRAWN_ZONES
        whole = message("map-by-your-zones" if by_zones else "map-one-rate")
        tried = found.tried
        why = message(
            "map-no-map",
            why=found.no_map.value,
            samples=len(found.field.samples),
            least=int(parameter_values("field")["samples_least"]),
            skill=None if tried is None else Measure(Quantity.SHARE, max(tried.skill_frac, 0.0)),
            whole=whole,
        )
        told.append(Paragraph(say(why, words)))
    if found.acidifies_m2 > 0.0:
        told.append(Paragraph(say(_sulfur(found), words)))
    reasons = tuple(
        say(
            message(
                "map-zone-why",
                zone=Given(zone.letter),
                because=Given(sentence(zone.because, words)),
            ),
            words,
        )
        for zone in found.zones
    )
    return (*told, Items(reasons))


def _sulfur(found: FieldMap) -> Message:
    limed = any(zone.rate_g_m2 > 0.0 and zone.direction is Direction.LIME for zone in found.zones)
    most = max(
        (
            zone.need_g_m2.mid
            for zone in found.zones
            if zone.direction is Direction.ACIDIFY and zone.need_g_m2 is not None
        ),
        default=0.0,
    )
    if limed or found.by_zones.now_g <= 0.0:
        area = Measure(Quantity.AREA, found.acidifies_m2)
        return message("map-sulfur", area=area, rate=rate(most))
    return message("map-sulfur-map", amount=amount(found.by_zones.now_g))


def _uneven(found: FieldMap) -> tuple[Message, ...]:
    """Why a zone may get less now than a less acid one: the first such pair."""
    for one, other in pairwise(found.zones):
        if (
            found.no_map is None
            and 0.0 < one.rate_g_m2 < other.rate_g_m2
            and one.rate_g_m2 + one.later_g_m2 > other.rate_g_m2 + other.later_g_m2
        ):
            return (message("map-uneven", less=Given(one.letter), more=Given(other.letter)),)
    return ()


def _mean(found: FieldMap, words: Words) -> tuple[Block, ...]:
    zones, mean, none = found.by_zones, found.by_mean, found.left_alone
    worse = zones.within - mean.within
    more = mean.in_all_g - zones.in_all_g
    if abs(worse) < SAME and abs(more) < 1.0:
        told = message("map-mean-same")
    elif worse <= SAME:
        told = message("map-mean-better")
    elif mean.in_all_g <= 0.0:
        told = message(
            "map-mean-nothing", amount=amount(abs(more)), worse=number(round(100.0 * worse))
        )
    else:
        told = message(
            "map-mean-told",
            worse=number(round(100.0 * worse)),
            amount=amount(abs(more)),
            more="more" if more > 0.0 else "less",
            cost=_cost(mean, zones, found.currency, words),
        )
    priced = zones.cost_in_all is not None
    keys = ["way", "now", "all", *(["cost"] if priced else []), "below", "within", "above"]
    rows = tuple(
        tuple(_cell(key, name, way, found.currency, words) for key in keys)
        for name, way in (("zones", zones), ("mean", mean), ("none", none))
    )
    columns = tuple(
        Column(
            say(message("map-column", column=key), words),
            Align.LEFT if key == "way" else Align.RIGHT,
        )
        for key in keys
    )
    caption = say(message("map-ways-caption", on=found.on), words)
    return Paragraph(say(told, words)), Table(columns, rows, caption)


def _cost(
    mean: WayOfDosing, zones: WayOfDosing, currency: str | None, words: Words
) -> Given | None:
    if mean.cost_in_all is None or zones.cost_in_all is None:
        return None
    return Given(words.money(abs(mean.cost_in_all - zones.cost_in_all), currency))


def _cell(key: str, name: str, way: WayOfDosing, currency: str | None, words: Words) -> str:
    if key == "way":
        return say(message("map-way", way=name), words)
    if key in ("now", "all"):
        grams = way.now_g if key == "now" else way.in_all_g
        return words.amount(grams) if grams > 0.0 else say(message("map-nothing"), words)
    if key == "cost":
        return words.money(way.cost_in_all or 0.0, currency)
    share = {"below": way.below, "within": way.within, "above": way.above}[key]
    return f"{100.0 * share:.0f}"


def _trust(found: FieldMap, words: Words) -> tuple[Section, ...]:
    tried = found.tried
    if tried is None:
        return ()
    told = message(
        "map-trust",
        samples=tried.samples,
        error=ph_mean(tried.error_ph),
        mean=ph_mean(tried.error_of_mean_ph),
        skill=Measure(Quantity.SHARE, max(tried.skill_frac, 0.0)),
        held=number(round(100.0 * tried.held_frac)),
        reach=Measure(Quantity.LENGTH, float(round(tried.range_m, -1))),
        nugget=ph_mean(tried.nugget_sd_ph),
    )
    blocks: list[Block] = [Paragraph(say(told, words))]
    if found.no_map is None:
        blocks.append(ph_figure(found, words=words))
        if found.zones and found.zones[0].clay_pct is not None:
            blocks.append(Paragraph(say(message("map-trust-clay"), words)))
    return (Section(say(message("map-heading-trust"), words), tuple(blocks)),)


def _more(found: FieldMap, words: Words, door: str) -> tuple[Block, ...]:
    if not found.more:
        least = int(parameter_values("field")["samples_least"])
        near = Measure(Quantity.LENGTH, 2.0 * found.field.grid.cell_m)
        return (Paragraph(say(message("map-more-refused", least=least, near=near), words)),)
    chosen = next((one for one in found.more if one.count == found.worth_taking), found.more[0])
    told = message(
        "map-more",
        count=found.worth_taking,
        gain=_in_parts(chosen.within),
    )
    priced = chosen.cost is not None and chosen.gain is not None
    keys = ["samples", "gain", *(["price", "worth"] if priced else [])]
    rows = tuple(
        (
            str(one.count),
            words.in_100(one.within),
            *(
                (
                    words.money(one.cost or 0.0, found.currency),
                    words.money(one.gain or 0.0, found.currency),
                )
                if priced
                else ()
            ),
        )
        for one in found.more
    )
    columns = tuple(
        Column(
            say(message("map-column", column=key), words),
            Align.LEFT if key == "samples" else Align.RIGHT,
        )
        for key in keys
    )
    how = message("map-more-money", priced="yes" if priced else "no", door=door)
    return Paragraph(say(told, words)), Table(columns, rows), Paragraph(say(how, words))


def _in_parts(share: float) -> Measure:
    return Measure(Quantity.IN_100, share)


def _care(found: FieldMap, words: Words) -> Section:
    items = tuple(caution_line(one, words=words, short=True) for one in field_cautions(found))
    blocks: list[Block] = [Items(items)] if items else []
    blocks.append(Paragraph(say(RULES_LINE, words)))
    title = say(message("caution-title"), words)
    return Section(title, tuple(blocks), Matter.CARE)


def listed_letters(found: FieldMap) -> Listed:
    """Letters of the zones that get nothing."""
    return Listed(tuple(Given(one.letter) for one in found.zones if one.rate_g_m2 <= 0.0))
