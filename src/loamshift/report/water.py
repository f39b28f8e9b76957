"""One water as a page: lime in a year, acid per 100 L, and how to handle it."""

from __future__ import annotations

from loamshift.domain.letter import (
    Align,
    Block,
    Column,
    Items,
    Letter,
    Note,
    Paragraph,
    Section,
    Table,
)
from loamshift.domain.message import (
    Measure,
    Message,
    Prose,
    Quantity,
    alkalinity,
    message,
    ph,
    prose,
    rate,
)
from loamshift.domain.water import AcidDose, WaterTreatment
from loamshift.report.letter_words import sentence
from loamshift.report.messages import say
from loamshift.report.sources import sources_section
from loamshift.report.words import Words
from loamshift.tables.parameters import load_parameters
from loamshift.units import US_GALLON_L

_APART = 1.01
"""Ends of a range of acid that lie further apart than this are both said [1]."""


def water_letter(water: WaterTreatment, *, words: Words) -> Letter:
    """One water in this reader's words as a letter."""
    sections = [Section(None, tuple(_lead(water, words)))]
    if water.products:
        heading = say(message("water-one-of-these"), words)
        sections.append(Section(heading, (_product_table(water, words),)))
        label = say(message("water-caution"), words)
        cautions = [Note(sentence(caution.text, words), label) for caution in water.cautions]
        sections.append(Section(say(message("water-handling"), words), tuple(cautions)))
    comments = tuple(say(comment, words) for comment in water.comments)
    sections.append(Section(say(message("water-keep-in-mind"), words), (Items(comments),)))
    keys = [*water.source_keys, *(c.source_key for c in water.cautions if c.source_key)]
    heading = say(message("colophon-sources"), words)
    sections.append(sources_section(keys, heading=heading))
    subtitle = message("water-subtitle", alkalinity=alkalinity(water.alkalinity_mg_l_as_caco3))
    return Letter(say(message("water-title"), words), say(subtitle, words), tuple(sections))


def acid_said(water: WaterTreatment) -> tuple[Measure, Measure | None]:
    """Acid for a litre of a water: the best estimate, and its range if it has one."""
    acid = water.acid_mmolc_l
    apart = acid.hi90 > _APART * acid.lo90
    return (
        Measure(Quantity.ACID_WATER, acid.mid),
        Measure(Quantity.ACID_WATER, acid.lo90, acid.hi90) if apart else None,
    )


def adds_said(dose: AcidDose) -> Message | None:
    """The nutrient that an acid leaves in the water; None for one that leaves none."""
    if dose.adds is None:
        return None
    amount = Measure(Quantity.IN_WATER, dose.adds_mg_l or 0.0)
    return message("water-adds", nutrient=dose.adds.lower(), amount=amount)


def _lead(water: WaterTreatment, words: Words) -> list[Block]:
    said = (_limes(water), _needs(water))
    blocks: list[Block] = [Paragraph(say(one, words)) for one in said if one is not None]
    if water.ph_start_assumed and water.products:
        assumed = load_parameters()["water_advice"]["assumed_ph_start"]
        text = message(
            "water-assumed-ph",
            ph=ph(water.ph_start),
            range=ph(assumed.low or assumed.value, high=assumed.high or assumed.value),
        )
        blocks.append(Note(say(text, words), say(message("water-assumed-label"), words)))
    return blocks


def _limes(water: WaterTreatment) -> Message | None:
    if water.lime_g_m2_year is None or water.water_mm_year is None:
        return None
    return message(
        "water-limes",
        depth=Measure(Quantity.WATER_DEPTH, water.water_mm_year),
        lime=rate(water.lime_g_m2_year),
        sulfur=rate(water.sulfur_as_s_g_m2_year or 0.0),
    )


def _needs(water: WaterTreatment) -> Prose:
    """The acid, what it leaves, and what the water then reads."""
    if not water.products:
        return prose(message("water-no-acid"))
    acid, acid_range = acid_said(water)
    left = alkalinity(water.alkalinity_left_mg_l_as_caco3.mid)
    lime = None if water.lime_left_g_m2_year is None else rate(water.lime_left_g_m2_year)
    after = water.ph_after
    if water.aims_at_ph and after is not None:
        return prose(
            message("water-needs-for-ph", ph=ph(after.mid), acid=acid),
            None if acid_range is None else message("water-needs-range", range=acid_range),
            message("water-leaves", left=left, lime=lime),
        )
    return prose(
        message("water-needs-to-leave", left=left, acid=acid),
        None if lime is None else message("water-still-limes", lime=lime),
        None if after is None else message("water-then-reads", ph=ph(after.lo90, high=after.hi90)),
    )


def _product_table(water: WaterTreatment, words: Words) -> Table:
    columns = (
        Column(say(message("water-column-acid"), words)),
        Column(say(message("water-column-amount"), words), Align.RIGHT),
        Column(say(message("water-column-adds"), words), Align.RIGHT),
        Column(say(message("water-column-remark"), words)),
    )
    rows = []
    for dose in water.products:
        adds = adds_said(dose)
        rows.append(
            (
                say(dose.called, words),
                words.measure(_per_batch(dose, words)),
                "" if adds is None else say(adds, words),
                say(dose.remark, words),
            )
        )
    return Table(columns, tuple(rows))


def _per_batch(dose: AcidDose, words: Words) -> Measure:
    """A dose for 100 L, or for 100 gallons where the reader has those."""
    if words.units != "us":
        kind = Quantity.GRAMS if dose.unit == "g" else Quantity.ML
        return Measure(kind, dose.amount.lo90, dose.amount.hi90)
    if dose.unit == "g":
        return Measure(
            Quantity.AMOUNT, dose.amount.lo90 * US_GALLON_L, dose.amount.hi90 * US_GALLON_L
        )
    litres = US_GALLON_L / 1000.0
    return Measure(Quantity.VOLUME, dose.amount.lo90 * litres, dose.amount.hi90 * litres)
