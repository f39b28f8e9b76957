"""Two answers held against each other, in words."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from datetime import date
from typing import Final

from loamshift.domain.answer import Band, PlanRule
from loamshift.domain.changes import Changes, Maker, MakerChange, Outcome, Plain
from loamshift.domain.letter import (
    Align,
    Block,
    Column,
    Items,
    Letter,
    Paragraph,
    Section,
    Table,
)
from loamshift.report.front import reads, then
from loamshift.report.letter_care import caution_line
from loamshift.report.letter_words import counted, in_100, material_in_text, sentence
from loamshift.report.messages import say
from loamshift.report.summary import DECISIONS
from loamshift.report.words import Quantity, Words

_QUANTITY: Final = re.compile(r"(-?\d+(?:\.\d+)?(?:e[-+]?\d+)?) (m2|cm|mm|g|g/m2|mg/L CaCO3)")
_DAY: Final = re.compile(r"\d{4}-\d\d-\d\d")
_UNITS: Final = {
    "m2": Quantity.AREA,
    "cm": Quantity.DEPTH,
    "mm": Quantity.WATER_DEPTH,
    "g": Quantity.AMOUNT,
    "g/m2": Quantity.RATE,
    "mg/L CaCO3": Quantity.ALKALINITY,
}
_NOTHING: Final = "–"
_DIRECTIONS: Final = {"acidify": "lower the pH", "lime": "raise the pH", "none": "neither way"}
_MAKERS: Final = {
    Maker.VERSION: "the version of loamshift",
    Maker.MODEL: "the model",
    Maker.TABLES: "the shipped tables",
    Maker.SEED: "the seed of the forecast's draws",
    Maker.MEMBERS: "the number of possible beds in the forecast",
    Maker.YEARS: "the years of the forecast",
}
_NAMES: Final = {
    Maker.VERSION: "version of loamshift",
    Maker.MODEL: "model",
    Maker.TABLES: "edition of the tables",
}
_KNOWLEDGE: Final = tuple(_NAMES)
_BY_AREA: Final = re.compile(r"water\.weekly|feed\.rate|(?:applied|claim)\[\d+\]\.(?:rate|amount)")
"""Keys that may have been given for the whole bed and are kept per area."""
_ALSO: Final = {
    "findings": "the checks",
    "missing": "what is worth measuring",
    "options": "the ways compared",
    "soil_temperature": "the soil temperature",
    "rescue": "the rescue",
    "claims": "the claims",
    "branches": "what an open question would decide",
    "refit": "what the readings taught",
}


def changes_letter(found: Changes, *, words: Words) -> Letter:
    """What differs between two answers, why, and what followed.

    Parameters
    ----------
    found
        The differences [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    Letter
        Short where nothing differs [object].
    """
    opening: list[Block] = [*_opening(found, words), Paragraph(words.text(_why(found)))]
    sections = [Section(None, tuple(opening))]
    told = _told(found, words)
    if told:
        sections.append(Section("What was told differently", told))
    behind = _behind(found)
    if behind:
        sections.append(Section("What works it out", behind))
    followed = _followed(found, words)
    if followed:
        sections.append(Section("What followed", followed))
    forecast = _forecast(found, words)
    if forecast is not None:
        sections.append(Section("The forecasts", (forecast,)))
    return Letter(words.text(found.name), "Two answers compared.", tuple(sections))


def _opening(found: Changes, words: Words) -> list[Block]:
    before, after = DECISIONS[found.old.decision], DECISIONS[found.new.decision]
    if found.is_same:
        return [Paragraph(f"**Nothing differs.** The advice is “{after}” both times.")]
    if not found.moved:
        return [Paragraph(f"**The advice stays “{after}”, and so does every figure.**")]
    if before == after:
        return [Paragraph(f"**The advice stays “{after}”.**")]
    return [
        Paragraph(f"**The advice changes from “{before}” to “{after}”.**"),
        Paragraph(f"Then: {sentence(found.old.because, words)}"),
        Paragraph(f"Now: {sentence(found.new.because, words)}"),
    ]


def _why(found: Changes) -> str:
    """Where the difference can have come from, and where it cannot."""
    if found.is_same:
        return "What was told, the tables, the model and the forecast's settings are the same."
    knowledge = [change.what for change in found.makers if change.what in _KNOWLEDGE]
    chance = [change.what for change in found.makers if change.what not in _KNOWLEDGE]
    causes = []
    if found.inputs:
        told = counted(len(found.inputs), "key")
        causes.append(f"{told} of the case file with another value")
    if knowledge:
        causes.append(f"another {_joined([_NAMES[what] for what in knowledge])}")
    if chance:
        causes.append("other settings of the forecast")
    if not found.moved:
        return f"Behind it now: {_joined(causes)}; nothing in the answer moved by it."
    notes = [f"It comes from {_joined(causes)}." if causes else ""]
    if found.inputs is None:
        notes.append("One of the two keeps no case, so what was told cannot be compared.")
    elif not causes:
        notes.append("Nothing that was kept tells where the difference comes from.")
    elif not found.inputs:
        notes.append("What was told is the same, day and all.")
    elif not found.makers:
        notes.append("Tables, model and settings are the same, so it is what was told alone.")
    if chance and not knowledge and found.inputs == ():
        notes.append("Drawing other possible beds moves every figure a little.")
    if found.between is not None:
        notes.append(
            "The middle column below is the older case answered with the tables and model of now: "
            "what moves up to it comes from those, what moves after it from what was told."
        )
    elif found.inputs and knowledge:
        notes.append("The two answers alone cannot tell how much is due to which.")
    return " ".join(note for note in notes if note)


def _joined(parts: Sequence[str]) -> str:
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} and {parts[-1]}"


def _told(found: Changes, words: Words) -> tuple[Block, ...]:
    if not found.inputs:
        return ()
    rows = tuple(
        (change.path, _said(change.old, words), _said(change.new, words)) for change in found.inputs
    )
    table = Table((Column("key of the case file"), Column("then"), Column("now")), rows)
    paths = [change.path for change in found.inputs]
    if "bed.area" in paths and any(_BY_AREA.fullmatch(path) for path in paths):
        note = "What is given for the whole bed is kept per area, so it moves with the area."
        return (table, Paragraph(note))
    return (table,)


def _said(value: Plain, words: Words) -> str:
    if value is None:
        return _NOTHING
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float | int):
        return f"{value:g}"
    if _DAY.fullmatch(value):
        try:
            return words.date(date.fromisoformat(value))
        except ValueError:
            return value
    quantity = _QUANTITY.fullmatch(value)
    if quantity is None:
        return value
    return words.say(float(quantity[1]), _UNITS[quantity[2]])


def _behind(found: Changes) -> tuple[Block, ...]:
    if not found.makers:
        return ()
    return (Items(tuple(_maker(change) for change in found.makers)),)


def _maker(change: MakerChange) -> str:
    before = _NOTHING if change.old is None else str(change.old)
    after = _NOTHING if change.new is None else str(change.new)
    return f"{_MAKERS[change.what]}: {before}, now {after}"


def _followed(found: Changes, words: Words) -> tuple[Block, ...]:
    blocks: list[Block] = []
    rows = _rows(found, words)
    if rows:
        middle = [Column("same case, now")] if found.between is not None else []
        blocks.append(
            Table((Column("figure"), Column("then"), *middle, Column("now")), tuple(rows))
        )
    for lead, cautions in (
        ("Care that is new", found.cautions_gained),
        ("Care no longer needed", found.cautions_lost),
    ):
        if cautions:
            blocks.append(Paragraph(f"{lead}:"))
            blocks.append(Items(tuple(caution_line(caution, words=words) for caution in cautions)))
    also = [_ALSO.get(key, key) for key in found.also]
    if also:
        text = f"Different as well: {_joined(also)}; the letters themselves say how."
        blocks.append(Paragraph(text))
    return tuple(blocks)


def _rows(found: Changes, words: Words) -> list[tuple[str, ...]]:
    sides = [found.old, *([found.between] if found.between is not None else []), found.new]
    rows: list[tuple[str, ...]] = []

    def add(what: str, say: Callable[[Outcome], str]) -> None:
        cells = tuple(say(side) or _NOTHING for side in sides)
        if len(set(cells)) > 1:
            rows.append((words.text(what), *(words.text(cell) for cell in cells)))

    add("advice", lambda side: DECISIONS[side.decision])
    add("why", lambda side: "" if side.reason is None else side.reason.value.replace("-", " "))
    add("way", lambda side: _DIRECTIONS[side.direction])
    add("pH aimed at", lambda side: "" if side.ph_aim is None else words.ph(side.ph_aim))
    add("sulfur by the curve, as S", lambda side: _band(side.sulfur_as_s_g_m2, words))
    add("lime by the curve, as CaCO3", lambda side: _band(side.lime_as_caco3_g_m2, words))
    add(
        "the same by the forecast",
        lambda side: "" if side.by_forecast_g_m2 is None else words.rate(side.by_forecast_g_m2),
    )
    for what, told in _plan_rows(words).items():
        add(what, told)
    for number in range(max(len(side.applications) for side in sides)):
        add(f"part {number + 1}", _part_said(number, words))
    add(
        "too early to test before",
        lambda side: "" if side.too_early_before is None else words.date(side.too_early_before),
    )
    add("test again on", lambda side: ", ".join(words.date(day) for day in side.retest))
    add(
        "drift left to itself",
        lambda side: "" if side.drift_ph_year is None else f"{side.drift_ph_year:+.2f} pH a year",
    )
    add(
        "acid ledger of a year",
        lambda side: (
            ""
            if side.ledger_net_mmolc_m2_year is None
            else f"{side.ledger_net_mmolc_m2_year:+.0f} mmolc/m²"
        ),
    )
    return rows


def _plan_rows(words: Words) -> dict[str, Callable[[Outcome], str]]:
    """What the plan as a rule comes to, by the name of its row; empty where there is none."""

    def of(say: Callable[[PlanRule], str]) -> Callable[[Outcome], str]:
        return lambda side: "" if side.plan is None else say(side.plan)

    return {
        "what the next test decides": of(lambda plan: _lines_said(plan, words)),
        "best estimate of the pH": of(
            lambda plan: f"{words.ph(plan.median_ph)} on {words.date(plan.on)}"
        ),
        "of 100 such beds in the range": of(lambda plan: in_100(plan.share_in_range)),
        "the same without a test": of(lambda plan: in_100(plan.share_in_range_without_tests)),
        "of 100 such beds harmed": of(lambda plan: in_100(plan.share_harmed)),
    }


def _lines_said(plan: PlanRule, words: Words) -> str:
    return "; ".join(
        f"{say(reads(line), words)}: {say(then(line, None), words)}"
        for line in plan.decides
    )


def _band(band: Band | None, words: Words) -> str:
    return "" if band is None else words.likely(band, Quantity.RATE)


def _part_said(number: int, words: Words) -> Callable[[Outcome], str]:
    """How one part of the plan is said, for whichever side is asked."""

    def say(side: Outcome) -> str:
        if number >= len(side.applications):
            return ""
        part = side.applications[number]
        name = material_in_text(part.material, words).split(" (")[0]
        text = f"{words.date(part.date)}: {words.rate(part.rate_g_m2)} {name}"
        return f"{text}, {words.amount(part.amount_g)}" if part.amount_g is not None else text

    return say


def _forecast(found: Changes, words: Words) -> Table | None:
    if not found.forecast or all(row.old == row.new for row in found.forecast):
        return None
    rows = tuple(
        (
            words.date(row.day),
            f"{words.ph(row.old.mid)} ({words.ph(row.old.lo90)} to {words.ph(row.old.hi90)})",
            f"{words.ph(row.new.mid)} ({words.ph(row.new.lo90)} to {words.ph(row.new.hi90)})",
        )
        for row in found.forecast
    )
    return Table(
        (Column("pH on"), Column("then", Align.RIGHT), Column("now", Align.RIGHT)),
        rows,
        "Middle, and where nine tests in ten read",
    )
