"""The words of every chart come from messages, are plain, and are those of the letter."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from loamshift.case.read import read_case
from loamshift.domain.answer import Answer, Decision
from loamshift.domain.case import Aim, Applied, Case
from loamshift.domain.letter import Figure, FigureKind
from loamshift.domain.ph import PhMethod, PhReading
from loamshift.report.chart_plain import PLAIN_KINDS, plain_picture
from loamshift.report.figures import FIGURES, figures_of
from loamshift.report.figures.history import history_figure, outcome_told, score_told
from loamshift.report.front import decides_table
from loamshift.report.layout import letter_lines, plain_text
from loamshift.report.letter import letter_from_answer
from loamshift.report.letter_head import reading_in_force
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.services.advise import LookAhead, advise
from loamshift.tables.materials import load_materials
from marked import marked_reader, words_left
from report.answers import POWDER
from report.drawn import COURSES, UK, US, seen_ahead
from report.test_chart_history import LIVES

STRUCK = [
    re.compile(row["words"], re.IGNORECASE)
    for row in tomllib.loads(
        (Path(__file__).parents[1] / "contracts" / "struck_words.toml").read_text("utf-8")
    )["struck"]
]
OLD = re.compile(
    r"\bmiddle\b|\bleft alone\b|\bpulls?\b|\bputs? on\b|\bthe dose\b|\bwants\b|\blies\b"
)
"""Words that charts used to have for what the letter calls otherwise."""
LONGEST, LONGEST_IN_FRONT = 30, 25
EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
_CODES = frozenset({"kind", "date", "sure", "known", "care", "outcome", "from", "to"})
_SPAN = frozenset({"first", "today", "last"})


def texts_of(figure: Figure) -> Iterator[str]:
    """Everything in a figure that somebody may read."""
    yield figure.title
    yield figure.sentence
    yield from (text for _, text in figure.labels)
    yield from (column.title for column in figure.table.columns)
    yield figure.table.caption or ""
    yield from (cell for row in figure.table.rows for cell in row)
    for data in figure.data:
        codes = _CODES | (_SPAN if data.name == "span" else frozenset())
        for row in data.rows:
            for name, cell in zip(data.columns, row, strict=True):
                if isinstance(cell, str) and name not in codes:
                    yield cell
    if figure.kind in PLAIN_KINDS:
        yield " ".join(plain_picture(figure, width=76))


def beds() -> Iterator[tuple[str, Answer, Case]]:
    """Beds of every kind of answer, some with plants that share no range, some with salt tests."""
    for name in COURSES:
        yield name, *seen_ahead(name)
    answer, case = seen_ahead("rule")
    low, high = replace(case.aim.plants[0], name="heather", ph_low=4.0, ph_high=4.6), None
    high = replace(low, name="lavender", ph_low=6.5, ph_high=7.5)
    yield "apart", answer, replace(case, aim=replace(case.aim, plants=(low, high)))
    wanted = answer.wanted
    assert wanted is not None
    yield "target", replace(answer, wanted=replace(wanted, names=())), replace(case, aim=Aim())
    for method in (PhMethod.CACL2, PhMethod.WATER_1_1):
        yield method.value, answer, by_method(case, method)


def by_method(case: Case, method: PhMethod) -> Case:
    """The same bed, tested by this method alone."""
    reading = PhReading(ph=6.2, method=method, depth_cm=15.0, taken=case.today)
    return replace(case, soil=replace(case.soil, ph=reading, other_ph=()), readings=())


BEDS = {name: (answer, case) for name, answer, case in beds()}


@pytest.mark.parametrize("name", BEDS)
def test_no_word_of_a_figure_is_left_in_code(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    words = marked_reader(monkeypatch)
    answer, case = BEDS[name]
    made = figures_of(answer, case, words=words)
    assert made
    for figure in made:
        for text in texts_of(figure):
            left = words_left(text, case)
            assert not left, f"{figure.kind}: {text}"


@pytest.mark.parametrize("name", LIVES)
def test_no_word_of_a_timeline_is_left_in_code(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    words = marked_reader(monkeypatch)
    life, (_, case) = LIVES[name], BEDS["rule"]
    figure = history_figure(life, words=words)
    assert figure is not None
    told = [
        say(one, words) for score in life.scores for one in (score_told(score), outcome_told(score))
    ]
    for text in (*texts_of(figure), *told):
        assert not words_left(text, case), text


@pytest.mark.parametrize("words", [UK, US], ids=["uk", "us"])
@pytest.mark.parametrize("name", BEDS)
def test_the_words_of_a_figure_are_plain(name: str, words: Words) -> None:
    for figure in figures_of(*BEDS[name], words=words):
        for text in texts_of(figure):
            _is_plain(text)
        _is_short(figure)


@pytest.mark.parametrize("words", [UK, US], ids=["uk", "us"])
@pytest.mark.parametrize("name", LIVES)
def test_the_words_of_a_timeline_are_plain(name: str, words: Words) -> None:
    figure = history_figure(LIVES[name], words=words)
    assert figure is not None
    for text in texts_of(figure):
        _is_plain(text)
    _is_short(figure)


def test_an_old_word_would_be_found() -> None:
    for text in ("nine tests in ten", "the middle course", "two printed tables", "the first part"):
        with pytest.raises(AssertionError):
            _is_plain(text)


def _is_plain(text: str) -> None:
    for pattern in (*STRUCK, OLD):
        assert not pattern.search(text), text


def _is_short(figure: Figure) -> None:
    front = figure.kind in (FigureKind.DECIDES, FigureKind.COURSE)
    for sentence in re.split(r"(?<=[.!?])\s+(?=[A-Z])", figure.sentence):
        count = len(sentence.split())
        assert count <= (LONGEST_IN_FRONT if front else LONGEST), f"{count}: {sentence}"


@pytest.mark.parametrize("words", [UK, US], ids=["uk", "us"])
@pytest.mark.parametrize("name", BEDS)
def test_a_bracket_has_the_reading_and_the_amount_of_the_table(name: str, words: Words) -> None:
    answer, case = BEDS[name]
    table = decides_table(answer, case, words=words)
    figure = FIGURES[FigureKind.DECIDES](answer, case, words=words)
    if table is None or figure is None:
        return
    told = next(data for data in figure.data if data.name == "lines").rows
    if answer.verdict.decision is Decision.MEASURE_FIRST:
        assert not told, "its amounts are not to be spread yet"
        return
    assert {(reading, then) for reading, then in table.rows} == {
        row[:2] for row in figure.table.rows
    }
    cells = dict(table.rows)
    for (_, reads, then), (reading, *_) in zip(told, figure.table.rows, strict=True):
        assert str(reads).startswith(f"reads {reading}") and then == cells[reading]
    assert figure.table.columns[0].title == table.columns[0].title
    assert dict(figure.labels)["axis"] == "pH in water"


def test_a_bed_tested_in_a_salt_has_its_brackets_in_that_salt() -> None:
    answer, case = BEDS["CaCl2"]
    reading = reading_in_force(case)
    assert reading is not None and reading.method is PhMethod.CACL2
    salt = FIGURES[FigureKind.DECIDES](answer, case, words=UK)
    water = FIGURES[FigureKind.DECIDES](*BEDS["water 1:1"], words=UK)
    assert salt is not None and water is not None
    in_salt_, in_water = (
        [str(row[1]) for data in one.data if data.name == "lines" for row in data.rows]
        for one in (salt, water)
    )
    assert all(text.endswith(", in calcium chloride") for text in in_salt_)
    assert not any("calcium" in text for text in in_water)
    for low, high in zip(in_salt_, in_water, strict=True):
        apart = [float(b) - float(a) for a, b in zip(_figures(low), _figures(high), strict=True)]
        assert all(0.5 <= off <= 0.7 for off in apart), "0.6 is the usual difference"
    assert "would read between" in salt.sentence and "in water." in salt.sentence
    assert (
        "Readings of the test are in calcium chloride; the scale is pH in water." in salt.sentence
    )


def test_a_bed_something_was_applied_to_is_not_called_untreated() -> None:
    answer, case = BEDS["rule"]
    material = load_materials()[POWDER]
    entry = Applied(on=case.today, material=material, rate_g_m2=20.0, as_given="20 g/m2")
    for applied, said in (((), "untreated"), ((entry,), "nothing added")):
        letter = letter_from_answer(answer, replace(case, applied=applied), words=UK)
        text = plain_text(letter_lines(letter, width=10_000)).lower()
        figures = [one for section in letter.sections for one in section.blocks]
        labels = [dict(one.labels) for one in figures if isinstance(one, Figure)]
        assert {one["alone"] for one in labels if "alone" in one} == {said}
        assert said in text and ({"untreated", "nothing added"} - {said}).pop() not in text


def _figures(text: str) -> list[str]:
    return re.findall(r"\d+\.\d+", text)


@pytest.mark.parametrize("path", EXAMPLES[:4], ids=lambda path: path.stem)
def test_the_figures_of_an_example_are_worded_in_messages(
    path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    case = read_case(path, today=date(2026, 11, 30))
    answer = advise(case, look_ahead=LookAhead(members=30))
    words = marked_reader(monkeypatch)
    for figure in figures_of(answer, case, words=words):
        for text in texts_of(figure):
            assert not words_left(text, case), f"{figure.kind}: {text}"
