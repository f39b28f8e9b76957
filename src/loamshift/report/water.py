"""One water as a page: lime in a year, acid per 100 L, and how to handle it."""

from __future__ import annotations

from loamshift.domain.answer import Band
from loamshift.domain.digits import sensible
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
from loamshift.domain.water import AcidDose, WaterTreatment
from loamshift.report.letter_words import sentence
from loamshift.report.sources import sources_section
from loamshift.report.words import Quantity, Words
from loamshift.units import US_FLUID_OUNCE_ML, US_GALLON_L


def water_letter(water: WaterTreatment, *, words: Words) -> Letter:
    """One water [object] in this reader's words [object] as a letter [object]."""
    sections = [Section(None, tuple(_lead(water, words)))]
    if water.products:
        sections.append(Section(_heading(words), (_product_table(water, words),)))
        cautions = [
            Note(sentence(caution.text, words), words.text("Care")) for caution in water.cautions
        ]
        sections.append(Section("Handling", tuple(cautions)))
    comments = tuple(words.text(comment) for comment in water.comments)
    sections.append(Section("To keep in mind", (Items(comments),)))
    keys = [*water.source_keys, *(c.source_key for c in water.cautions if c.source_key)]
    sections.append(sources_section(keys))
    alkalinity = words.say(water.alkalinity_mg_l_as_caco3, Quantity.ALKALINITY)
    return Letter("The water", f"Alkalinity {alkalinity}", tuple(sections))


def _lead(water: WaterTreatment, words: Words) -> list[Block]:
    blocks: list[Block] = []
    if water.lime_g_m2_year is not None and water.water_mm_year is not None:
        depth = words.water_depth(water.water_mm_year)
        lime = words.rate(water.lime_g_m2_year)
        sulfur = words.rate(water.sulfur_as_s_g_m2_year or 0.0)
        text = f"{depth} of it a year spreads as much lime as **{lime}** of ground limestone"
        text += f"; it would take {sulfur} of sulfur a year to balance."
        blocks.append(Paragraph(words.text(text)))
    if not water.products:
        blocks.append(Paragraph("**No acid is needed** for this target."))
        return blocks
    share = water.acid_mmolc_l
    acid = sensible(share.mid)
    if share.hi90 > 1.01 * share.lo90:
        acid += f" ({sensible(share.lo90)} to {sensible(share.hi90)})"
    text = f"To reach {water.target} takes **{acid} mmol of acid per litre**"
    left = water.alkalinity_left_mg_l_as_caco3
    text += f" and leaves about {words.say(left.mid, Quantity.ALKALINITY)}"
    if water.lime_left_g_m2_year is not None:
        text += f", that is {words.rate(water.lime_left_g_m2_year)} of lime a year"
    blocks.append(Paragraph(words.text(text + ".")))
    if water.ph_after is not None and not water.aims_at_ph:
        low, high = words.ph(water.ph_after.lo90), words.ph(water.ph_after.hi90)
        ends = f"about pH {low}" if low == high else f"pH {low} to {high}"
        blocks.append(Paragraph(f"In a closed line the water then reads {ends}."))
    if water.ph_start_assumed:
        text = (
            f"Nobody gave the pH of the water; {water.ph_start:.1f} was taken, 7.0 to 8.3 "
            "carried through. Read it and give it with --ph."
        )
        blocks.append(Note(text, "Assumed"))
    return blocks


def _heading(words: Words) -> str:
    return f"For {'100 US gal' if words.units == 'us' else '100 L'} of water, one of these"


def _product_table(water: WaterTreatment, words: Words) -> Table:
    columns = (
        Column("acid"),
        Column("amount", Align.RIGHT),
        Column("adds to the water", Align.RIGHT),
        Column("remark"),
    )
    rows = tuple(
        (
            words.text(dose.product),
            _amount(dose, words),
            "" if dose.adds is None else f"{sensible(dose.adds_mg_l or 0.0)} mg/L {dose.adds}",
            words.text(dose.remark),
        )
        for dose in water.products
    )
    return Table(columns, rows)


def _amount(dose: AcidDose, words: Words) -> str:
    factor, unit = 1.0, dose.unit
    if words.units == "us":
        per_100_gal = US_GALLON_L
        factor = per_100_gal / (US_FLUID_OUNCE_ML if dose.unit == "mL" else 28.349523125)
        unit = "fl oz" if dose.unit == "mL" else "oz"
    band = Band(
        lo90=dose.amount.lo90 * factor, mid=dose.amount.mid * factor, hi90=dose.amount.hi90 * factor
    )
    low, mid, high = sensible(band.lo90), sensible(band.mid), sensible(band.hi90)
    if low == high:
        return f"{mid} {unit}"
    return f"{low} to {high} {unit}"
