"""Two answers held against each other, in words."""

from __future__ import annotations

import re
from collections.abc import Callable
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
from loamshift.domain.message import (
    Given,
    Listed,
    Measure,
    Message,
    Product,
    Prose,
    amount,
    in_100,
    message,
    ph,
    rate,
)
from loamshift.domain.plan import TestLine
from loamshift.report.front import reads, then
from loamshift.report.letter_care import caution_line
from loamshift.report.letter_fields import field_called
from loamshift.report.messages import say
from loamshift.report.summary import decision_said
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
_KNOWLEDGE: Final = (Maker.VERSION, Maker.MODEL, Maker.TABLES)
_BY_AREA: Final = re.compile(r"water\.weekly|feed\.rate|(?:applied|claim)\[\d+\]\.(?:rate|amount)")
"""Keys that may have been given for the whole bed and are kept per area."""
_ALSO: Final = (
    *(
        "findings",
        "missing",
        "options",
        "soil_temperature",
        "subsoil",
        "pot_or_ground",
        "rescue",
        "claims",
    ),
    *("branches", "refit", "own_sums", "unused"),
)
"""Parts of an answer that are not compared one by one and have a name."""


def changes_letter(found: Changes, *, words: Words, in_words: bool = False) -> Letter:
    """What differs between two answers, why, and what followed.

    Parameters
    ----------
    in_words
        True where the reader sees no case file: its keys are then called what letters call them.
    """
    opening: list[Block] = [*_opening(found, words), Paragraph(say(_why(found), words))]
    sections = [Section(None, tuple(opening))]
    forecast = _forecast(found, words)
    for heading, blocks in (
        ("changes-inputs-heading", _told(found, words, in_words)),
        ("changes-makers-heading", _behind(found, words)),
        ("changes-results-heading", _followed(found, words)),
        ("changes-forecasts-heading", () if forecast is None else (forecast,)),
    ):
        if blocks:
            sections.append(Section(say(message(heading), words), blocks))
    subtitle = say(message("changes-subtitle"), words)
    return Letter(words.text(found.name), subtitle, tuple(sections))


def _opening(found: Changes, words: Words) -> list[Block]:
    before, after = found.old.decision, found.new.decision
    advised = {
        "before": Given(decision_said(before, words)),
        "after": Given(decision_said(after, words)),
    }
    if found.is_same or before == after:
        key = "changes-stays" if found.moved else "changes-stays-whole"
        said = message("changes-same" if found.is_same else key, after=advised["after"])
        return [Paragraph(say(said, words))]
    return [
        Paragraph(say(message("changes-advice", **advised), words)),
        Paragraph(f"{say(message('changes-then'), words)} {say(found.old.because, words)}"),
        Paragraph(f"{say(message('changes-now'), words)} {say(found.new.because, words)}"),
    ]


def _why(found: Changes) -> Prose:
    """Where the difference can have come from, and where it cannot."""
    if found.is_same:
        return Prose((message("changes-all-same"),))
    knowledge = [change.what for change in found.makers if change.what in _KNOWLEDGE]
    chance = [change.what for change in found.makers if change.what not in _KNOWLEDGE]
    causes: list[Message] = []
    if found.inputs:
        causes.append(message("changes-cause-inputs", n=len(found.inputs)))
    causes += [message(f"changes-cause-{what.value}") for what in knowledge]
    if chance:
        causes.append(message("changes-cause-settings"))
    listed = Listed(tuple(causes))
    if not found.moved:
        return Prose((message("changes-behind", causes=listed),))
    notes = [message("changes-from", causes=listed)] if causes else []
    if found.inputs is None:
        notes.append(message("changes-no-case"))
    elif not causes:
        notes.append(message("changes-no-cause"))
    elif not found.inputs:
        notes.append(message("changes-inputs-same"))
    elif not found.makers:
        notes.append(message("changes-inputs-alone"))
    if chance and not knowledge and found.inputs == ():
        notes.append(message("changes-chance"))
    if found.between is not None:
        notes.append(message("changes-middle"))
    elif found.inputs and knowledge:
        notes.append(message("changes-cannot-tell"))
    return Prose(tuple(notes))


def _columns(words: Words, *keys: str) -> tuple[Column, ...]:
    return tuple(Column(say(message(f"changes-column-{key}"), words)) for key in keys)


def _told(found: Changes, words: Words, in_words: bool) -> tuple[Block, ...]:
    if not found.inputs:
        return ()
    rows = tuple(
        (
            field_called(change.path, words) if in_words else change.path,
            _said(change.old, words),
            _said(change.new, words),
        )
        for change in found.inputs
    )
    table = Table(_columns(words, "fact" if in_words else "key", "then", "now"), rows)
    paths = [change.path for change in found.inputs]
    if "bed.area" in paths and any(_BY_AREA.fullmatch(path) for path in paths):
        return (table, Paragraph(say(message("changes-by-area"), words)))
    return (table,)


def _said(value: Plain, words: Words) -> str:
    """A value of a case file: quantities have all their digits there, and a unit of our own."""
    if value is None:
        return say(message("changes-nothing"), words)
    if isinstance(value, bool):
        return say(message("changes-yes" if value else "changes-no"), words)
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


def _behind(found: Changes, words: Words) -> tuple[Block, ...]:
    if not found.makers:
        return ()
    return (Items(tuple(say(_maker(change), words) for change in found.makers)),)


def _maker(change: MakerChange) -> Message:
    before, after = (
        message("changes-nothing") if value is None else Given(str(value))
        for value in (change.old, change.new)
    )
    return message("changes-maker", what=change.what.value, before=before, after=after)


def _followed(found: Changes, words: Words) -> tuple[Block, ...]:
    blocks: list[Block] = []
    rows = _rows(found, words)
    if rows:
        middle = ("same-case",) if found.between is not None else ()
        blocks.append(Table(_columns(words, "figure", "then", *middle, "now"), tuple(rows)))
    for lead, cautions in (
        ("changes-cautions-gained", found.cautions_gained),
        ("changes-cautions-lost", found.cautions_lost),
    ):
        if cautions:
            blocks.append(Paragraph(say(message(lead), words)))
            blocks.append(Items(tuple(caution_line(caution, words=words) for caution in cautions)))
    if found.also:
        names = dict.fromkeys(key if key in _ALSO else "other" for key in found.also)
        parts = tuple(message(f"changes-also-{name.replace('_', '-')}") for name in names)
        blocks.append(Paragraph(say(message("changes-also", parts=Listed(parts)), words)))
    return tuple(blocks)


Cell = Callable[[Outcome], Prose | Message | Measure | None]


def _rows(found: Changes, words: Words) -> list[tuple[str, ...]]:
    sides = [found.old, *([found.between] if found.between is not None else []), found.new]
    nothing = say(message("changes-nothing"), words)
    rows: list[tuple[str, ...]] = []
    most = max(len(side.applications) for side in sides)
    for name, cell in (*_figures(), *((_application(n), _applied(n)) for n in range(most))):
        cells = tuple(_cell(cell(side), words) or nothing for side in sides)
        if len(set(cells)) > 1:
            rows.append((say(name, words), *cells))
    for name, cell in _after():
        cells = tuple(_cell(cell(side), words) or nothing for side in sides)
        if len(set(cells)) > 1:
            rows.append((say(name, words), *cells))
    return rows


def _cell(what: Prose | Message | Measure | None, words: Words) -> str:
    if what is None:
        return ""
    return words.measure(what) if isinstance(what, Measure) else say(what, words)


def _figures() -> tuple[tuple[Message, Cell], ...]:
    """What is compared first, by the names of the rows."""
    return (
        (
            message("changes-row-advice"),
            lambda side: message("summary-decision", decision=side.decision.value),
        ),
        (
            message("changes-row-why"),
            lambda side: side.reason and message("changes-reason", reason=side.reason.value),
        ),
        (
            message("changes-row-direction"),
            lambda side: message("changes-direction", direction=side.direction),
        ),
        (
            message("changes-row-aim"),
            lambda side: None if side.ph_aim is None else ph(side.ph_aim),
        ),
        (message("changes-row-sulfur"), lambda side: _need(side.sulfur_as_s_g_m2)),
        (message("changes-row-lime"), lambda side: _need(side.lime_as_caco3_g_m2)),
        (
            message("changes-row-forecast"),
            lambda side: None if side.by_forecast_g_m2 is None else rate(side.by_forecast_g_m2),
        ),
        (message("changes-row-decides"), _of_plan(_decides)),
        (
            message("changes-row-best"),
            _of_plan(lambda plan: message("changes-best", ph=ph(plan.median_ph), day=plan.on)),
        ),
        (message("changes-row-in-range"), _of_plan(lambda plan: in_100(plan.share_in_range))),
        (
            message("changes-row-without-test"),
            _of_plan(lambda plan: in_100(plan.share_in_range_without_tests)),
        ),
        (message("changes-row-harmed"), _of_plan(lambda plan: in_100(plan.share_harmed))),
    )


def _after() -> tuple[tuple[Message, Cell], ...]:
    """What is compared last, by the names of the rows."""
    return (
        (
            message("changes-row-too-early"),
            lambda side: (
                side.too_early_before and message("changes-cell", value=side.too_early_before)
            ),
        ),
        (
            message("changes-row-retest"),
            lambda side: (
                message("changes-cell", value=Listed(side.retest)) if side.retest else None
            ),
        ),
        (message("changes-row-drift"), lambda side: _drift(side.drift_ph_year)),
        (
            message("changes-row-ledger"),
            lambda side: (
                None
                if side.ledger_net_mmolc_m2_year is None
                else Measure(Quantity.ACID_AREA, side.ledger_net_mmolc_m2_year)
            ),
        ),
    )


def _of_plan(cell: Callable[[PlanRule], Prose | Message | Measure | None]) -> Cell:
    return lambda side: None if side.plan is None else cell(side.plan)


def _decides(plan: PlanRule) -> Prose:
    return Prose(tuple(map(_line, plan.decides)))


def _line(line: TestLine) -> Message:
    return message("changes-decides-line", reads=reads(line), then=then(line, None))


def _need(band: Band | None) -> Message | None:
    if band is None:
        return None
    return message("changes-need", best=rate(band.mid), range=rate(band.lo90, high=band.hi90))


def _drift(drift_ph_year: float | None) -> Message | None:
    if drift_ph_year is None:
        return None
    up = "yes" if drift_ph_year >= 0.0 else "no"
    return message("changes-drift", ph=Given(f"{abs(drift_ph_year):.2f}"), up=up)


def _application(number: int) -> Message:
    return message("changes-row-application", n=number + 1)


def _applied(number: int) -> Cell:
    """One application, for whichever side is asked."""

    def cell(side: Outcome) -> Message | None:
        if number >= len(side.applications):
            return None
        part = side.applications[number]
        return message(
            "changes-application",
            day=part.date,
            rate=rate(part.rate_g_m2),
            product=Product(part.material),
            amount=None if part.amount_g is None else amount(part.amount_g),
        )

    return cell


def _forecast(found: Changes, words: Words) -> Table | None:
    if not found.forecast or all(row.old == row.new for row in found.forecast):
        return None
    rows = tuple(
        (words.date(row.day), say(_course(row.old), words), say(_course(row.new), words))
        for row in found.forecast
    )
    day, before, after = _columns(words, "ph-on", "then", "now")
    columns = (day, Column(before.title, Align.RIGHT), Column(after.title, Align.RIGHT))
    return Table(columns, rows, say(message("changes-forecast-caption"), words))


def _course(band: Band) -> Message:
    return message("changes-forecast", best=ph(band.mid), range=ph(band.lo90, high=band.hi90))
