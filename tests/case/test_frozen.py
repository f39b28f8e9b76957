"""Letter and case inside an answer: kept whole, read back the same, faults told with a path."""

from __future__ import annotations

import json
from dataclasses import replace
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from case.test_answer import made_answer
from case.test_read import FULL
from loamshift.case.answer import answer_from_json, answer_to_dict, answer_to_json
from loamshift.case.answer_file import answer_file_from_json, read_answer_file
from loamshift.case.frozen import FrozenLetter, letter_from_plain, letter_to_plain
from loamshift.case.frozen_case import case_from_plain, case_to_plain
from loamshift.case.read import parse_case, read_case
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
from loamshift.errors import CaseError, InputError, LoamshiftError
from loamshift.report.words import Words
from wording import read

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
TABLE = Table((Column("a"), Column("b", Align.RIGHT)), (("1", "2"),), "caption")


def made_letter() -> FrozenLetter:
    """A letter with every kind of block; the words mean nothing."""
    figure = Figure(
        kind=FigureKind.COURSE,
        title="t",
        sentence="s",
        data=(DataSet("d", ("x", "y"), (("2026-04-12", 6.25), ("z", None), ("w", 3))),),
        table=TABLE,
        labels=(("p", "q"), ("p", "r")),
    )
    blocks = (
        Paragraph("**bold** é ²"),
        TABLE,
        Items(("one", "two"), True),
        Note("text", "Care"),
        figure,
    )
    letter = Letter("North border", "12 April", (Section(None, blocks), Section("End", ())))
    return FrozenLetter(letter, Words("us", "us"))


def kept(**changes: Any) -> str:
    """An answer's JSON with a letter, parts of which are replaced: ``a.b.0`` is a place in it."""
    plain = answer_to_dict(made_answer(), letter=made_letter())
    for path, value in changes.items():
        node: Any = plain["letter"]
        *parents, last = path.split("__")
        for part in parents:
            node = node[int(part)] if part.isdigit() else node[part]
        node[int(last) if last.isdigit() else last] = value
    return json.dumps(plain)


def test_a_letter_comes_back_the_same_block_by_block() -> None:
    frozen = made_letter()
    plain = json.loads(json.dumps(letter_to_plain(frozen)))
    again = letter_from_plain(plain, source="x")
    assert again == frozen
    assert letter_to_plain(again) == letter_to_plain(frozen)
    cells = again.letter.sections[0].blocks[4].data[0].rows  # type: ignore[union-attr]
    assert [type(row[1]) for row in cells] == [float, type(None), int]


def test_a_figure_that_is_no_number_is_our_fault() -> None:
    bad = replace(
        made_letter().letter.sections[0].blocks[4],  # type: ignore[type-var]
        data=(DataSet("d", ("x",), ((float("nan"),),)),),
    )
    letter = Letter("x", "", (Section(None, (bad,)),))  # type: ignore[arg-type]
    with pytest.raises(LoamshiftError, match="nan"):
        letter_to_plain(FrozenLetter(letter, Words()))


def test_case_and_letter_stand_at_the_end_and_are_null_where_not_given() -> None:
    plain = answer_to_dict(made_answer())
    assert list(plain)[-2:] == ["case", "letter"]
    assert plain["case"] is None and plain["letter"] is None


def test_an_answer_of_before_reads_without_them() -> None:
    plain = answer_to_dict(made_answer())
    del plain["case"], plain["letter"]
    text = json.dumps(plain)
    file = answer_file_from_json(text)
    assert file.answer == answer_from_json(answer_to_json(made_answer()))
    assert file.letter is None and file.kept_case is None
    with pytest.raises(InputError, match="contains no case"):
        file.case()


def test_the_answer_alone_is_read_whatever_is_kept_beside_it() -> None:
    plain = answer_to_dict(made_answer()) | {"case": 5, "letter": [[]]}
    assert answer_from_json(json.dumps(plain)) == answer_from_json(answer_to_json(made_answer()))


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_example_comes_back_an_equal_case(path: Path) -> None:
    case = read_case(path)
    assert case_from_plain(json.loads(json.dumps(case_to_plain(case))), source="x") == case


def test_a_full_case_comes_back_with_what_was_noticed() -> None:
    case = parse_case(FULL)
    assert case_from_plain(case_to_plain(case), source="x") == case
    index = parse_case("case = 1\ntoday = 2026-04-12\n[soil]\nbuffer_ph = 65")
    assert index.notes
    assert case_from_plain(case_to_plain(index), source="x") == index


def test_a_daily_file_is_not_needed_again(tmp_path: Path) -> None:
    lines = ["date,temp_c,rain_mm"]
    lines += [f"{date.fromordinal(737425 + day)},{day % 25},{day % 3}" for day in range(366)]
    (tmp_path / "own.csv").write_text("\n".join(lines), "utf-8")
    (tmp_path / "bed.toml").write_text(
        'case = 1\ntoday = 2026-04-12\n[place]\ndaily_file = "own.csv"\nlatitude = 50', "utf-8"
    )
    case = read_case(tmp_path / "bed.toml")
    assert case.place is not None and "weather file" in read(case.place.basis)
    assert case_from_plain(case_to_plain(case), source="x") == case


@pytest.mark.parametrize(
    ("text", "path"),
    [
        (kept(title=5), "letter.title"),
        (kept(units="imperial"), "letter.units"),
        (kept(spelling=None), "letter.spelling"),
        (kept(sections={}), "letter.sections"),
        (kept(sections__0__blocks__0__block="poem"), "letter.sections[1].blocks[1].block"),
        (kept(sections__0__blocks__0={}), "letter.sections[1].blocks[1].block"),
        (kept(sections__0__blocks__0=7), "letter.sections[1].blocks[1]"),
        (kept(sections__0__blocks__0__text="\x1b[31m"), "letter.sections[1].blocks[1].text"),
        (kept(sections__0__blocks__1__rows__0=["1"]), "letter.sections[1].blocks[2]"),
        (kept(sections__0__blocks__1__rows__0=["1", 2]), "letter.sections[1].blocks[2].rows[1][2]"),
        (kept(sections__0__blocks__2__numbered="yes"), "letter.sections[1].blocks[3].numbered"),
        (kept(sections__0__blocks__3__colour="red"), "letter.sections[1].blocks[4].colour"),
        (kept(sections__0__blocks__4__kind="pie"), "letter.sections[1].blocks[5].kind"),
        (kept(sections__0__blocks__4__labels__0=["p"]), "letter.sections[1].blocks[5].labels[1]"),
        (kept(sections__0__blocks__4__data__0__rows__0=[True, 1]),
         "letter.sections[1].blocks[5].data[1].rows[1][1]"),
        (kept(sections__0__blocks__4__table=None), "letter.sections[1].blocks[5].table"),
    ],
)  # fmt: skip
def test_a_letter_of_another_shape_is_told_with_its_path(text: str, path: str) -> None:
    with pytest.raises(CaseError) as caught:
        answer_file_from_json(text, source="bed.json")
    assert path in {fault.path for fault in caught.value.faults}
    assert "bed.json" in str(caught.value)


def test_faults_of_answer_and_letter_come_at_once() -> None:
    plain = json.loads(kept(title=5))
    plain["name"] = None
    with pytest.raises(CaseError) as caught:
        answer_file_from_json(json.dumps(plain))
    assert {fault.path for fault in caught.value.faults} == {"name", "letter.title"}


@pytest.mark.parametrize(
    ("case", "path"),
    [
        (5, "case"),
        ({"case": 1, "today": "soon"}, "case.today"),
        ({"case": 1, "today": "2026-04-12", "soil": {"ph": 72}}, "case.soil.ph"),
        ({"case": 1, "today": "2026-04-12", "noticed": "x"}, "case.noticed"),
        ({"case": 1, "today": "2026-04-12", "noticed": ["\x1b"]}, "case.noticed[1]"),
        ({"case": 1, "today": "2026-04-12", "climate": 5}, "case.climate[1]"),
        ({"case": 1, "today": "2026-04-12", "soil": {"ph": [[[[[[[1]]]]]]]}}, "case"),
    ],
)
def test_a_kept_case_that_is_none_is_told_with_its_path(case: object, path: str) -> None:
    plain = answer_to_dict(made_answer()) | {"case": case}
    file = answer_file_from_json(json.dumps(plain))
    with pytest.raises(CaseError) as caught:
        file.case()
    assert path in {fault.path for fault in caught.value.faults}


@pytest.mark.parametrize(
    "text",
    [
        "[" * 100_000,
        '{"a":' * 100_000,
        "[" * 60 + "]" * 60,
        '{"answer": 1, "name": 1e999}',
        '{"answer": 1, "name": ' + "9" * 5000 + "}",
        '{"answer": 1, "answer": 1}',
        '{"answer": 1, "retest": [' + "1," * 200_000 + "1]}",
        '{"answer": 1, "letter": {"sections": [' + "1," * 200_000 + "1]}}",
        '{"answer": 1, ' + ", ".join(f'"k{n}": 1' for n in range(50_000)) + "}",
    ],
    ids=lambda text: text[:20],
)
def test_huge_and_hostile_json_is_refused_in_few_words(text: str) -> None:
    with pytest.raises(CaseError) as caught:
        answer_file_from_json(text)
    assert 1 <= len(caught.value.faults) <= 200
    assert len(str(caught.value)) < 60_000


def test_numbers_and_letters_that_cannot_be_printed_are_refused() -> None:
    plain = answer_to_dict(made_answer())
    plain["balance_error"] = 10**400
    plain["name"] = "half \ud800"
    with pytest.raises(CaseError) as caught:
        answer_from_json(json.dumps(plain))
    assert {fault.path for fault in caught.value.faults} == {"balance_error", "name"}


def test_a_file_that_cannot_be_read_is_told(tmp_path: Path) -> None:
    for path, problem in (
        (tmp_path / "none.json", "no such file"),
        (tmp_path, "folder"),
    ):
        with pytest.raises(CaseError, match=problem):
            read_answer_file(path)
    (tmp_path / "bad.json").write_bytes(b"\xff\xff")
    with pytest.raises(CaseError, match="UTF-8"):
        read_answer_file(tmp_path / "bad.json")
