"""Jars as a letter: what goes into each, how to do it safely, and what the readings say."""

from __future__ import annotations

from loamshift.domain.answer import Band
from loamshift.domain.letter import (
    Align,
    Column,
    Items,
    Letter,
    Matter,
    Paragraph,
    Section,
    Table,
)
from loamshift.domain.message import Measure, Message, Quantity, message, number, ph, ph_mean, times
from loamshift.domain.trial_jars import Jar, JarPlan, JarResult
from loamshift.report.messages import say
from loamshift.report.words import Words


def jars_letter(plan: JarPlan, *, words: Words, door: str = "command") -> Letter:
    """The protocol of a series of jars; ``door`` is where it is read back, as for a trial."""
    with_acid = any(jar.acid_ml for jar in plan.jars)
    steps = [
        message("jars-step-soil", soil=Measure(Quantity.GRAMS, plan.soil_g)),
        message("jars-step-add", what="acid" if with_acid else "lime"),
        message("jars-step-water", water=Measure(Quantity.ML, plan.water_ml)),
        message("jars-step-week"),
        message("jars-step-read"),
        message("jars-step-return", door=door),
    ]
    rows = tuple(
        (str(jar.number), say(_added(jar), words), _acid(jar, words), "") for jar in plan.jars
    )
    columns = (
        _column("jar", words),
        _column("add", words),
        _column("acid", words),
        _column("ph", words),
    )
    care = [message("jars-care-eyes"), *((message("jars-care-acid"),) if with_acid else ())]
    lead = message(
        "jars-lead", count=len(plan.jars), ph=ph(plan.ph_to), what="acid" if with_acid else "lime"
    )
    made = message("jars-acid", strength=number(plan.acid_mol_l))
    return Letter(
        say(message("jars-title"), words),
        "",
        (
            Section(None, (Paragraph(say(lead, words)),), Matter.OPENING),
            Section(
                say(message("jars-heading-add"), words),
                (
                    Table(columns, rows),
                    *((Paragraph(say(made, words)),) if with_acid else ()),
                ),
            ),
            Section(
                say(message("trial-heading-steps"), words),
                (Items(tuple(say(step, words) for step in steps), numbered=True),),
            ),
            Section(
                say(message("jars-heading-week"), words),
                (Paragraph(say(message("jars-why-week"), words)),),
            ),
            Section(
                say(message("trial-heading-care"), words),
                (Items(tuple(say(one, words) for one in care)),),
                Matter.CARE,
            ),
        ),
    )


def jars_result_letter(result: JarResult, *, words: Words, door: str = "command") -> Letter:
    """What the jars make of the soil's buffer curve."""
    narrower = "yes" if result.narrower > 1.1 else "no"
    lead = message("jars-found", narrower=narrower, times=times(result.narrower))
    rows = tuple(
        (say(message("jars-row", row=row), words), _band(before, words), _band(after, words))
        for row, before, after in (
            ("scale", result.scale_before, result.scale_after),
            ("acid" if result.acidify else "base", result.need_before, result.need_after),
        )
    )
    columns = (_column("what", words), _column("before", words), _column("after", words))
    points = tuple(
        (f"{acid:g}", say(message("trial-figure", figure=ph_mean(at)), words))
        for acid, at in result.points
    )
    return Letter(
        say(message("jars-title"), words),
        "",
        (
            Section(None, (Paragraph(say(lead, words)),), Matter.OPENING),
            Section(
                None,
                (Table(columns, rows), Paragraph(say(message("jars-scale", door=door), words))),
            ),
            Section(
                say(message("jars-heading-read"), words),
                (Table((_column("acid", words), _column("ph", words)), points),),
            ),
        ),
    )


def _column(name: str, words: Words) -> Column:
    right = ("acid", "ph", "before", "after")
    align = Align.RIGHT if name in right else Align.LEFT
    return Column(say(message("jars-column", column=name), words), align)


def _added(jar: Jar) -> Message:
    if jar.acid_ml:
        return message("jars-add", what="acid", amount=number(jar.acid_ml))
    if jar.lime_g:
        return message("jars-add", what="lime", amount=number(jar.lime_g))
    return message("jars-add", what="nothing", amount=None)


def _acid(jar: Jar, words: Words) -> str:
    return say(message("trial-figure", figure=number(jar.acid_mmolc_kg)), words)


def _band(band: Band, words: Words) -> str:
    figures = {"mid": number(band.mid), "range": number(band.lo90, high=band.hi90)}
    return say(message("jars-band", **figures), words)
