"""What an answer keeps comes back the same; whatever else comes in is refused in words."""

from __future__ import annotations

import json
from datetime import date
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from case.test_answer import made_answer
from case.test_frozen import made_letter
from loamshift.case.answer import answer_to_dict, answer_to_json
from loamshift.case.answer_file import answer_file_from_json
from loamshift.case.frozen import FrozenLetter
from loamshift.domain.case import Case
from loamshift.domain.letter import (
    Align,
    Column,
    DataSet,
    Figure,
    FigureKind,
    Items,
    Letter,
    Note,
    Paragraph,
    Section,
    Table,
)
from loamshift.errors import CaseError
from loamshift.report.markdown import letter_markdown
from loamshift.report.terminal import letter_text
from loamshift.report.words import Words
from properties.test_reader_properties import cases
from tries import tries

TEXTS = st.text(st.characters(exclude_categories=("Cc", "Cs")) | st.sampled_from("\n\t*"))
CELLS = st.none() | TEXTS | st.integers() | st.floats(-1e300, 1e300, allow_nan=False)


@st.composite
def tables(draw: st.DrawFn) -> Table:
    columns = draw(st.lists(st.builds(Column, TEXTS, st.sampled_from(Align)), max_size=3))
    row = st.tuples(*[TEXTS] * len(columns))
    return Table(tuple(columns), tuple(draw(st.lists(row, max_size=3))), draw(st.none() | TEXTS))


@st.composite
def data_sets(draw: st.DrawFn) -> DataSet:
    columns = tuple(draw(st.lists(TEXTS, max_size=3)))
    row = st.tuples(*[CELLS] * len(columns))
    return DataSet(draw(TEXTS), columns, tuple(draw(st.lists(row, max_size=3))))


BLOCKS = st.one_of(
    st.builds(Paragraph, TEXTS),
    tables(),
    st.builds(Items, st.lists(TEXTS, max_size=3).map(tuple), st.booleans()),
    st.builds(Note, TEXTS, TEXTS),
    st.builds(
        Figure,
        kind=st.sampled_from(FigureKind),
        title=TEXTS,
        sentence=TEXTS,
        data=st.lists(data_sets(), max_size=2).map(tuple),
        table=tables(),
        labels=st.lists(st.tuples(TEXTS, TEXTS), max_size=2).map(tuple),
    ),
)
SECTIONS = st.builds(Section, st.none() | TEXTS, st.lists(BLOCKS, max_size=3).map(tuple))
LETTERS = st.builds(
    FrozenLetter,
    st.builds(Letter, TEXTS, TEXTS, st.lists(SECTIONS, max_size=3).map(tuple)),
    st.builds(Words, st.sampled_from(["uk", "us"]), st.sampled_from(["metric", "us"])),
)


@tries(50)
@given(LETTERS)
def test_any_letter_comes_back_the_same_and_prints_the_same(frozen: FrozenLetter) -> None:
    text = answer_to_json(made_answer(), letter=frozen)
    again = answer_file_from_json(text).letter
    assert again == frozen
    assert letter_markdown(again.letter) == letter_markdown(frozen.letter)
    assert letter_text(again.letter) == letter_text(frozen.letter)
    assert answer_to_json(made_answer(), letter=again) == text


@tries(40)
@given(cases())
def test_any_case_comes_back_the_same(case: Case) -> None:
    text = answer_to_json(made_answer(), case=case)
    assert answer_file_from_json(text).case() == case


VALUES = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8) | st.dates(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=4), inner),
    max_leaves=6,
)


def places(tree: Any, at: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """Every place in plain data, the whole first."""
    inner = (
        tree.items()
        if isinstance(tree, dict)
        else enumerate(tree)
        if isinstance(tree, list)
        else ()
    )
    return [at, *(place for key, part in inner for place in places(part, (*at, key)))]


WHOLE = answer_to_dict(
    made_answer(),
    case=Case(name="North border", today=date(2026, 4, 12)),
    letter=made_letter(),
)
PLACES = places(WHOLE)[1:]


@tries(60)
@given(st.sampled_from(PLACES), VALUES, st.booleans())
def test_one_value_changed_by_hand_is_read_or_told(
    place: tuple[Any, ...], value: Any, gone: bool
) -> None:
    plain = json.loads(json.dumps(WHOLE))
    node = plain
    for key in place[:-1]:
        node = node[key]
    if gone:
        del node[place[-1]]
    else:
        node[place[-1]] = value
    try:
        file = answer_file_from_json(json.dumps(plain, default=str))
        if file.kept_case is not None:
            file.case()
        if file.letter is not None:
            letter_text(file.letter.letter)
    except CaseError as error:
        assert error.faults
        assert all(fault.path and fault.problem and fault.mend for fault in error.faults)


@tries(50)
@given(st.text(max_size=60) | VALUES.map(lambda value: json.dumps(value, default=str)))
def test_any_text_is_refused_in_words(text: str) -> None:
    try:
        answer_file_from_json(text)
    except CaseError as error:
        assert error.faults
