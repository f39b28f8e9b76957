"""Every fact given is used or named as unused, and what is named as unused has no influence."""

from __future__ import annotations

import json
import re
from collections.abc import Mapping
from functools import cache, cached_property
from pathlib import Path
from typing import Any

import pytest

from contracts.fact_pairs import BEDS, PAIRS, schema_keys, tree_with, write_stations
from loamshift.case.answer import answer_to_dict
from loamshift.case.read import case_from_tree
from loamshift.case.said import SAID
from loamshift.domain.answer import Severity
from loamshift.domain.case import Case
from loamshift.domain.field_name import field_in_text, field_key
from loamshift.domain.message import Given, Listed, Measure, Message, message
from loamshift.errors import CaseError
from loamshift.report.letter import letter_from_answer
from loamshift.report.terminal import letter_text
from loamshift.report.words import Words
from loamshift.services.advise import LookAhead, advise
from loamshift.services.cautions.unused_facts import CHECK, answer_use, unused, unused_facts
from loamshift.services.cautions.unused_reasons import Why
from loamshift.services.context.build_context import build_context
from tries import is_random
from wording import read

NO_FACT = {"case"}
"""Keys that say nothing about a bed."""
SHOWN = {
    "name",
    "units",
    "bed.kind",
    "bed.area",
    "bed.count",
    "bed.treated_diameter",
}
"""What tells one bed from another: stated at the head of its letter, which counts as use."""
ONLY_COMPARED = ("as read", "buffer pH against soil pH", "lime requirement of the laboratory")
"""Checks that set a figure beside another, whether or not the advice rests on it."""
RULES_OUT = {"soil.buffer_ph_method"}
"""A name that rules its figure out: neither is used, and without the name the figure would be."""
LIKE_ACIDIFY = {
    "laboratory": ("soil.",),
    "planted": ("bed.", "aim.", "applied[]", "today"),
}
"""Keys that such a bed is asked for: of all, one (``soil.sand_pct``) was used or named otherwise
in ``laboratory`` than in ``acidify``, none in ``planted``. ``tools/check random`` asks for all.
"""
ASKED = [
    (path, bed)
    for path in PAIRS
    for bed in BEDS
    if is_random() or path.startswith(LIKE_ACIDIFY.get(bed, ""))
]
ENTRY = re.compile(r"\[\d*\]")


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    place = tmp_path_factory.mktemp("stations")
    write_stations(place)
    return place


def _is_on(note: str | Message, path: str) -> bool:
    """Whether a note of the reader is about a key: its name stands first, or is a value of it."""
    if isinstance(note, str):
        return note.startswith((f"{path} ", f"{path}:"))
    at = note.values.get("path")
    return isinstance(at, Given) and at.text.partition(" ")[0] == path


def is_only_compared(row: dict[str, Any]) -> bool:
    """Whether a check sets a figure beside another without resting on it."""
    check: str = row["check"]
    return check in ONLY_COMPARED or check.endswith("against the texture")


class Unworded(Words):
    """Messages by their keys and values: a sentence can differ in nothing else."""

    def message(self, key: str, values: Mapping[str, str | int | float]) -> str:
        return f"{key} {values}"

    def measure(self, measure: Measure) -> str:
        figures = (measure.value, measure.high, measure.against)
        said = (f"{figure:.3g}" for figure in figures if figure is not None)
        return f"{measure.kind.value} {' '.join(said)}"


UNWORDED = Unworded()


class Told:
    """What the answer to a case holds, apart from what it names as unused."""

    def __init__(self, case: Case, look_ahead: LookAhead | None) -> None:
        answer = advise(case, look_ahead=look_ahead)
        context = build_context(case)
        facts = unused(context, answer_use(context, answer))
        self.named = {ENTRY.sub("", fact.path) for fact in facts}
        self.notes = case.notes
        plain = answer_to_dict(answer, words=UNWORDED)  # a fifth of the time was its words
        self.rows = [row for row in plain["findings"] if not row["check"].startswith(CHECK)]
        self.missing = plain["missing"]
        told_apart = ("/findings/", "/missing/")  # their texts stand in ``rows`` and ``missing``
        self.rest = {
            key: value for key, value in plain.items() if key not in ("findings", "missing", SAID)
        } | {
            SAID: {
                pointer: told
                for pointer, told in plain.get(SAID, {}).items()
                if not pointer.startswith(told_apart)
            }
        }
        self.case = case
        self.answer = answer

    @cached_property
    def letter(self) -> str:
        """The letter in full."""
        words = Words("uk", self.case.units.value)
        return letter_text(letter_from_answer(self.answer, self.case, words=words))

    def names(self, path: str) -> bool:
        """Whether a key, or the table it is in, is named as unused."""
        plain = path.replace("[]", "")
        return any(plain == name or plain.startswith(f"{name}.") for name in self.named)

    def notes_on(self, path: str) -> bool:
        """Whether the reader of the file already said why a key is not read."""
        return any(_is_on(note, path) for note in self.notes)

    def differs(self, other: Told, path: str) -> bool:
        """Whether anything at all is answered differently."""
        shown = path in SHOWN and self.letter != other.letter
        return shown or (self.rest, self.rows, self.missing) != (
            other.rest,
            other.rows,
            other.missing,
        )

    def is_moved_from(self, other: Told, path: str) -> bool:
        """Whether the advice differs: what is missing and what was only compared left out.

        A product that is only proposed keeps the caution for whoever handles it.
        """
        hazards = ("cautions", "sources", SAID) if path.startswith("claim") else ()

        def advice(told: Told) -> Any:
            rest = {key: value for key, value in told.rest.items() if key not in hazards}
            return rest, [row for row in told.rows if not is_only_compared(row)]

        return bool(advice(self) != advice(other))


@cache
def told(
    bed: str, path: str, place: int, folder: Path, look_ahead: LookAhead | None = None
) -> Told | None:
    """One of the two values (0, 1) or none at all (2); None where the key may not be left out."""
    value = None if place == 2 else PAIRS[path][place]
    try:
        return told_of(json.dumps(tree_with(bed, path, value)), folder, look_ahead)
    except CaseError:
        if place != 2:
            raise
        return None


@cache
def told_of(tree: str, folder: Path, look_ahead: LookAhead | None) -> Told:
    """What is told of a case; many keys share the bed without them."""
    return Told(case_from_tree(json.loads(tree), source="a bed", folder=folder), look_ahead)


@pytest.mark.parametrize(("path", "bed"), ASKED)
def test_a_fact_is_used_or_named(path: str, bed: str, folder: Path) -> None:
    one, two = told(bed, path, 0, folder), told(bed, path, 1, folder)
    assert one is not None and two is not None
    is_told = one.names(path) or two.names(path) or one.notes_on(path)
    if not (is_told or one.differs(two, path)):
        none = told(bed, path, 2, folder)
        assert none is not None and one.differs(none, path), f"{path} is passed over in silence"


@pytest.mark.parametrize(("path", "bed"), ASKED)
def test_what_is_named_as_unused_moves_nothing(path: str, bed: str, folder: Path) -> None:
    one, two = told(bed, path, 0, folder), told(bed, path, 1, folder)
    assert one is not None and two is not None
    naming = [each for each in (one, two) if each.names(path)]
    if len(naming) == 2:
        assert not one.is_moved_from(two, path)
    elif naming and path not in RULES_OUT:
        none = told(bed, path, 2, folder)
        assert none is None or not naming[0].is_moved_from(none, path)


@pytest.mark.parametrize(
    "path",
    [
        "place.soil_temp[].depth",
        "bed.growing",
        "soil.exchangeable_al_cmolc_kg",
        "soil.fizz_acid",
        "soil.mg_saturation_pct",
        "aim.by",
        "water.months",
        "feed.times",
        "applied[].material",
        "reading[].depth",
    ],
)
def test_a_forecast_keeps_the_same_contract(path: str, folder: Path) -> None:
    ahead = LookAhead(members=25, years=1)
    one, two = (told("acidify", path, place, folder, ahead) for place in (0, 1))
    assert one is not None and two is not None
    if one.names(path) and two.names(path):
        assert not one.is_moved_from(two, path)
    else:
        none = told("acidify", path, 2, folder, ahead)
        moved = one.differs(two, path) or (none is not None and one.differs(none, path))
        assert moved or one.names(path) or two.names(path)


def test_what_is_named_stands_in_the_answer(folder: Path) -> None:
    one = told("acidify", "bed.growing", 0, folder)
    assert one is not None
    rows = [row.check for row in one.answer.findings if row.check.startswith(CHECK)]
    assert rows == [f"{CHECK}bed.growing"]


def test_every_key_of_the_schema_is_tried() -> None:
    assert set(PAIRS) == set(schema_keys()) - NO_FACT
    assert {bed for _, bed in ASKED} == set(BEDS)
    everywhere = set(BEDS) - set(LIKE_ACIDIFY)
    assert all((path, bed) in ASKED for path in PAIRS for bed in everywhere)


@pytest.mark.parametrize("units", ["metric", "us"])
@pytest.mark.parametrize("why", list(Why))
def test_every_reason_has_its_sentences_for_one_fact_and_for_two(why: Why, units: str) -> None:
    facts = [field_in_text(path) for path in ("water.weekly", "applied[2]")]
    for number in (1, 2):
        listed = Listed(tuple(facts[:number]))
        said = read(message(f"unused-{why.value}", facts=listed), units=units)
        assert said.startswith("Given but not used: weekly watering")
        assert ("and application 2." in said) is (number == 2)
        assert said.endswith(".")


def test_every_key_and_every_table_has_a_label_and_a_name_inside_a_sentence() -> None:
    keys = {path.replace("[]", "") for path in schema_keys()}
    lists = {path.partition("[")[0] for path in schema_keys() if "[]" in path}
    for path in keys | lists:
        assert read(message(field_key(path)))
        assert read(field_in_text(path))


def test_a_silent_fact_would_be_caught(folder: Path) -> None:
    """Exchangeable aluminium moves nothing: only its name keeps the contract."""
    path = "soil.exchangeable_al_cmolc_kg"
    one, two = told("acidify", path, 0, folder), told("acidify", path, 1, folder)
    assert one is not None and two is not None
    assert not one.differs(two, path)
    assert one.names(path)
    assert not one.notes_on(path)


def test_a_fact_falsely_named_would_be_caught(folder: Path) -> None:
    """The pH moves the advice, so that naming it as unused would break the contract."""
    one, two = told("acidify", "soil.ph", 0, folder), told("acidify", "soil.ph", 1, folder)
    assert one is not None and two is not None
    assert one.is_moved_from(two, "soil.ph")
    assert not one.names("soil.ph")


def test_facts_of_one_reason_share_a_sentence() -> None:
    from services.beds import bed

    case = bed(
        'texture = "loam"',
        more='[water]\nalkalinity = "200 mg/L CaCO3"\nweekly = "20 mm"\n'
        '[[on_hand]]\nmaterial = "flowers of sulphur"\n[feed]\nn_g_m2_year = 6\nform = "urea"\n'
        '[[claim]]\nmaterial = "coffee grounds"\nrate = "1 kg/m2"',
    )
    context = build_context(case)
    rows = unused_facts(context, answer_use(context, advise(case)))
    (kept,) = [row for row in rows if "once we know the pH of the soil" in read(row.comment)]
    for path in ("water.alkalinity", "water.weekly", "feed", "on_hand[1]", "claim[1]"):
        assert path in kept.check.removeprefix(CHECK).split(", ")
        assert read(field_in_text(path)) in read(kept.comment)
    assert kept.severity is Severity.INFO
    assert kept.passed
