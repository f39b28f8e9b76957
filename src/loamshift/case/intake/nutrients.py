"""Magnesium and phosphorus of a report: what of them enters a case, and what is assumed for it.

Both help little and are printed in many ways, so nothing of them stops a file: what is not plain is
left out, and a question about it may stay open.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final

import numpy as np

from loamshift.case.intake.asked import answer_key, told_of
from loamshift.case.intake.headings import plain_words
from loamshift.case.intake.keys import MAGNESIUM, P_LEVEL
from loamshift.case.intake.proposal import Aspect, Finding
from loamshift.case.intake.understood import Understood
from loamshift.case.mend import Mend
from loamshift.case.questions import questions_by_path
from loamshift.domain.decision import Severity
from loamshift.domain.message import Given, message
from loamshift.tables.laboratory import load_phosphorus_indices

PER_LITRE: Final = "mg/L"
ASSUMED: Final = (PER_LITRE, "lb/ac")
"""Units that are of a weight of soil only where something is assumed of the soil."""
_BY_WEIGHT: Final = "mg/kg"
_OTHER_MAGNESIUM: Final = frozenset(
    {"total", "cacl2", "water", "h2o", "paste", "spurway", "index", "class", "rating", "morgan"}
)
"""Words of a heading beside which magnesium is not what ammonium salts or Mehlich 3 take out."""
_INDEX: Final = re.compile(r"(?:index\s*)?(\d)(?:[.,]\d+)?\s*[-+]?", re.IGNORECASE)
_WORDS: Final = {
    "vl": "low",
    "l": "low",
    "deficient": "low",
    "below optimum": "low",
    "m": "medium",
    "opt": "medium",
    "sufficient": "medium",
    "moderate": "medium",
    "h": "high",
    "above optimum": "high",
    "vh": "very high",
    "eh": "very high",
    "excess": "very high",
    "extremely high": "very high",
}
"""Ratings as laboratories shorten them, beside those the case file knows (common practice)."""


def enters_case(key: str, words: str, left: Sequence[str]) -> bool:
    """Whether a column of magnesium is plain enough by its heading.

    Parameters
    ----------
    words
        The whole heading, without signs and case.
    left
        Words of it that nothing explains.
    """
    return key != MAGNESIUM or not (left or _OTHER_MAGNESIUM & set(words.split()))


def with_nutrients(columns: Sequence[Understood], told: Mapping[str, str]) -> list[Understood]:
    """The columns, with magnesium and phosphorus taken or asked about: one column of each.

    Parameters
    ----------
    told
        Answers by their keys.
    """
    made = [_nutrient(one, told) for one in columns]
    for paths in ("soil.mg_mg_kg", P_LEVEL):
        taken = [n for n, one in enumerate(made) if one.meaning.path == paths]
        first = min(taken, key=lambda n: _rank(made[n]), default=None)
        for n in taken:
            if n != first:
                made[n] = _left_out(made[n])
    return made


def _nutrient(one: Understood, told: Mapping[str, str]) -> Understood:
    if one.key == MAGNESIUM and one.quantity is not None:
        findings = tuple(replace(found, severity=Severity.INFO) for found in one.findings)
        return _with_assumption(replace(one, findings=findings), told, "magnesium")
    if one.key == "p":
        return _olsen(one, told)
    if one.meaning.path == P_LEVEL:
        return _level(one)
    return one


def _rank(one: Understood) -> tuple[bool, bool, bool]:
    """Sure before unsure, a rating before a figure, by weight before all else."""
    return (not one.meaning.sure, one.key == "p", one.meaning.unit != _BY_WEIGHT)


def _left_out(one: Understood) -> Understood:
    return replace(one, meaning=replace(one.meaning, path=""), quantity=None, findings=())


def _with_assumption(one: Understood, told: Mapping[str, str], what: str) -> Understood:
    """The column with what is assumed of its unit told, or asked where nobody has agreed to it."""
    units = {one.meaning.unit, *one.read.units.values(), *filter(None, one.column.units)}
    assumed = next((unit for unit in ASSUMED if unit in units), "")
    if not assumed or not len(one.read.figures):
        return one
    heading = one.meaning.heading
    kind = "litre" if assumed == PER_LITRE else "acre"
    agreed = told_of(told, heading, Aspect.UNIT) == assumed
    asked = message("intake-ask-assumed", heading=Given(heading), per=kind)
    finding = Finding(
        code=f"{what}-assumed" if agreed else f"{what}-unit",
        severity=Severity.INFO,
        said=message(
            f"intake-{what}-{'assumed' if agreed else 'unit'}", heading=Given(heading), per=kind
        ),
        question=None if agreed else asked,
        key="" if agreed else answer_key(heading, Aspect.UNIT),
        choices=() if agreed else (assumed, _BY_WEIGHT),
        places=(one.meaning.place,),
    )
    sure = one.meaning.sure and agreed
    others = tuple(found for found in one.findings if found.key != finding.key or agreed)
    return replace(one, meaning=replace(one.meaning, sure=sure), findings=(*others, finding))


def _olsen(one: Understood, told: Mapping[str, str]) -> Understood:
    """A figure of phosphorus by bicarbonate per litre of soil is an index; no other figure is."""
    heading = one.column.heading
    words = set(plain_words(heading.text).split())
    if not words & {"olsen", "bicarb", "bicarbonate"} or words & {"index", "class"}:
        return one
    unit = told_of(told, one.meaning.heading, Aspect.UNIT) or heading.unit
    if unit == PER_LITRE:
        said = message("intake-phosphorus-olsen", heading=Given(one.meaning.heading))
        meaning = replace(one.meaning, path=P_LEVEL, unit=unit)
        return replace(one, meaning=meaning, findings=(*one.findings, _told(one, said)))
    if not len(one.read.figures):
        return one
    asked = replace(
        _told(one, message("intake-phosphorus-unit", heading=Given(one.meaning.heading))),
        question=message("intake-ask-assumed", heading=Given(one.meaning.heading), per="litre"),
        key=answer_key(one.meaning.heading, Aspect.UNIT),
        choices=(PER_LITRE,),
    )
    return replace(one, findings=(*one.findings, asked))


def _level(one: Understood) -> Understood:
    """A column of ratings or indices; one of plain figures, or by another scale, is left out."""
    words = plain_words(one.column.heading.text).split()
    held = [cell for cell in one.column.cells if cell]
    known = [cell for cell in held if level_of(cell, is_index="index" in words) is not None]
    if "morgan" in words or len(known) * 2 <= len(held):
        return _left_out(one)
    if "index" not in words:
        return one
    said = message("intake-phosphorus-index", heading=Given(one.meaning.heading))
    return replace(one, findings=(*one.findings, _told(one, said)))


def _told(one: Understood, said: object) -> Finding:
    return Finding(
        code=str(getattr(said, "key", "")).removeprefix("intake-"),
        severity=Severity.INFO,
        said=said,  # type: ignore[arg-type]
        places=(one.meaning.place,),
    )


def levels(one: Understood) -> list[str | None]:
    """The level of phosphorus of each sample, as a case file has it; None where none is known."""
    if one.key == "p":
        return [_level_of_figure(float(figure)) for figure in one.read.values]
    words = plain_words(one.column.heading.text).split()
    return [level_of(cell, is_index="index" in words) for cell in one.column.cells]


def level_of(cell: str, *, is_index: bool) -> str | None:
    """A rating or an index as a level; None where it is neither.

    >>> level_of("2-", is_index=True), level_of("VH", is_index=False), level_of("23", is_index=True)
    ('medium', 'very high', None)
    """
    found = _INDEX.fullmatch(cell.strip())
    if found and (is_index or "index" in cell.casefold()):
        return _level_of_index(int(found[1]))
    text = " ".join(cell.casefold().split())
    return _parsed(_WORDS.get(text, text))


def _level_of_figure(figure: float) -> str | None:
    """By what bicarbonate takes out of a litre of soil [mg/L]; indices are of whole figures."""
    if not np.isfinite(figure) or figure < 0.0:
        return None
    rows = load_phosphorus_indices()
    return _level_of_index(max(index for index, least in rows.items() if round(figure) >= least))


def _level_of_index(index: int) -> str | None:
    return _parsed(f"index {min(index, max(load_phosphorus_indices()))}")


def _parsed(text: str) -> str | None:
    try:
        return str(questions_by_path()[P_LEVEL].reads.parse(text))
    except (Mend, ValueError):
        return None
