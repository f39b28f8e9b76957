"""Rows of a file into beds: which bed each goes to, and what it brings there."""

from __future__ import annotations

import difflib
from collections.abc import Iterator, Mapping, Sequence
from copy import deepcopy
from dataclasses import dataclass, field
from datetime import date
from typing import Any, Final

from django.db import transaction

from loamshift.case.intake.entered import case_tree
from loamshift.case.intake.headings import plain_words
from loamshift.case.intake.proposal import Proposal, SampleRow
from loamshift.domain.field_name import field_in_text
from loamshift.domain.message import Given, Listed, Message, message
from loamshift.domain.worded_error import WordedFault
from loamshift.errors import CaseError
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.store.changes import Writer
from loamshift.store.models import Bed, Garden, Office
from loamshift.store.scope import kept
from loamshift.web.beds.keeping import put_case

LEAVE_OUT: Final = ""
_LIKE: Final = 0.6
_READING: Final = ("ph", "ph_method", "sampled", "sample_depth")
"""Keys of a soil test that make a reading of a bed that has a test already."""


@dataclass(frozen=True, slots=True)
class AskedRow:
    """One row with its figures in words, the bed it goes to, and beds it may mean."""

    place: str
    row: int
    sheet: str
    sample: str
    figures: tuple[tuple[Message, str], ...]
    held_back: tuple[tuple[Message, str], ...]
    bed: str
    is_new: bool
    near: tuple[str, ...]


@dataclass
class Entered:
    """What entering would do, or what is wrong; ``faults`` with the row of each."""

    beds: list[Bed] = field(default_factory=list)
    versions: dict[Any, int] = field(default_factory=dict)
    readings: int = 0
    already: int = 0
    undated: list[str] = field(default_factory=list)
    faults: list[tuple[str, WordedFault]] = field(default_factory=list)


def bed_labels(office: Office) -> dict[str, Bed]:
    """Every bed of an office by a label of its own: its name, with the garden if two share it."""
    beds = list(kept(Bed, office).select_related("garden__client"))
    names: dict[str, int] = {}
    for bed in beds:
        names[bed.name] = names.get(bed.name, 0) + 1
    found: dict[str, Bed] = {}
    for bed in beds:
        label = bed.name
        if names[label] > 1 and bed.garden is not None:
            label = f"{bed.name}, {bed.garden.name}, {bed.garden.client.name}"
        while label in found:
            label += " (2)"
        found[label] = bed
    return found


def asked_rows(
    proposal: Proposal, said: Mapping[str, str], labels: Mapping[str, Bed]
) -> Iterator[AskedRow]:
    """Every row that has figures, with where it goes: as said, or by its name."""
    by_words: dict[str, list[str]] = {}
    for label, bed in labels.items():
        by_words.setdefault(plain_words(bed.name), []).append(label)
    for row in proposal.rows:
        figures = tuple(_figures(row.values))
        if not figures:
            continue
        place = place_of(row)
        alike = by_words.get(plain_words(row.sample), [])
        near = tuple(
            label
            for words in difflib.get_close_matches(plain_words(row.sample), by_words, 3, _LIKE)
            for label in by_words[words]
        )
        guess = alike[0] if len(alike) == 1 else LEAVE_OUT if near else row.sample
        to = said.get(place, guess)
        yield AskedRow(
            place=place,
            row=row.place.row,
            sheet=row.place.sheet,
            sample=row.sample,
            figures=figures,
            held_back=tuple(_figures({**row.limits, **row.doubted})),
            bed=to,
            is_new=bool(to) and to not in labels,
            near=() if to in labels else near,
        )


def place_of(row: SampleRow) -> str:
    """What a row is called in a form: its sheet and its number in the file."""
    return f"{row.place.sheet}:{row.place.row}:{row.sample}"


def _figures(values: Mapping[str, object]) -> Iterator[tuple[Message, str]]:
    for path, value in values.items():
        if path != "name" and not path.endswith("]"):
            yield field_in_text(path), str(value)


def entered(
    proposal: Proposal,
    said: Mapping[str, str],
    *,
    office: Office,
    garden: Garden | None,
    today: date,
) -> Entered:
    """The beds as they would be with the rows in them; nothing is written."""
    labels = bed_labels(office)
    rows = {place_of(row): row for row in proposal.rows}
    done = Entered()
    trees: dict[str, dict[str, Any]] = {}
    beds: dict[str, Bed] = {}
    for asked in asked_rows(proposal, said, labels):
        if not asked.bed:
            continue
        tree = case_tree(rows[asked.place].values)
        if asked.bed not in trees:
            bed = labels.get(asked.bed)
            beds[asked.bed] = bed or Bed(garden=garden, name=asked.bed)
            if bed is not None:
                done.versions[bed.pk] = bed.version
                trees[asked.bed] = deepcopy(bed.case_json)
            else:
                trees[asked.bed] = _new_tree(tree, asked.bed, garden)
                continue
        _add(trees[asked.bed], tree.get("soil", {}), asked, done)
    for label, bed in beds.items():
        try:
            put_case(bed, trees[label], today=today)
        except CaseError as error:
            done.faults += [(label, one) for one in error.faults if isinstance(one, WordedFault)]
        else:
            done.beds.append(bed)
    return done


def _new_tree(tree: Mapping[str, Any], name: str, garden: Garden | None) -> dict[str, Any]:
    place = {} if garden is None else {"place": garden.place}
    return {**place, **tree, "name": name}


def _add(bed: dict[str, Any], soil: Mapping[str, Any], row: AskedRow, done: Entered) -> None:
    """A further test of a bed: its pH as a reading, and what the bed does not know yet."""
    own = bed.setdefault("soil", {})
    if "ph" not in own:
        own.update({key: value for key, value in soil.items() if key not in own})
        return
    own.update({k: v for k, v in soil.items() if k not in own and k not in (*_READING, "other_ph")})
    if "ph" not in soil:
        return
    if "sampled" not in soil:
        done.undated.append(row.sample)
        return
    names = dict(zip(_READING, ("ph", "ph_method", "date", "depth"), strict=True))
    reading = {name: soil[key] for key, name in names.items() if key in soil}
    reading["date"] = str(reading["date"])
    if _is_there(own, bed.get("reading", []), reading):
        done.already += 1
        return
    bed["reading"] = [*bed.get("reading", []), reading]
    done.readings += 1


def _is_there(soil: Mapping[str, Any], readings: Sequence[Any], new: Mapping[str, Any]) -> bool:
    known = [{"ph": soil.get("ph"), "date": soil.get("sampled")}, *readings]
    return any(
        str(one.get("date")) == new["date"] and str(one.get("ph")) == str(new["ph"])
        for one in known
    )


def write(done: Entered, *, writer: Writer) -> None:
    """Put the beds into the store, all of them or none.

    Raises
    ------
    InputError
        Where a bed was changed by somebody else in the meantime.
    """
    with transaction.atomic():
        for bed in done.beds:
            if bed.pk in done.versions:
                writer.change(bed, seen_version=done.versions[bed.pk])
            else:
                writer.add(bed)


def done_said(done: Entered, file: str) -> Message:
    """What an import did, in one sentence."""
    new = len([bed for bed in done.beds if bed.pk not in done.versions])
    return message(
        "intake-page-entered",
        file=Given(file),
        new=new,
        changed=len(done.beds) - new,
    )


def also_said(done: Entered) -> Message | None:
    """What of the file was left out of it."""
    if not (done.already or done.undated):
        return None
    named = Listed(tuple(Given(one) for one in done.undated[:5])) if done.undated else None
    return message("intake-page-left-out", already=done.already, undated=named)


def in_words(figures: Sequence[tuple[Message, str]], words: Words) -> str:
    """Figures in one line."""
    return ", ".join(f"{say(name, words)} {value}" for name, value in figures)
