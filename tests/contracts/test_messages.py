"""Words stand in message files, and nowhere else: no fault in the files, no prose left in code."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

import messages as checker
from loamshift.case.answer import answer_from_json, answer_to_json
from loamshift.case.answer_page import answer_page
from loamshift.case.answer_schema import answer_schema, letter_parts
from loamshift.case.case_schema import case_schema
from loamshift.case.page import case_page
from loamshift.case.read import read_case
from loamshift.case.write import case_toml
from loamshift.domain.case import Case
from loamshift.domain.letter import Letter, Matter
from loamshift.domain.message import Measure, Quantity, message, rate
from loamshift.errors import LoamshiftError
from loamshift.report.layout import letter_lines, plain_text
from loamshift.report.letter import letter_from_answer
from loamshift.report.messages import say
from loamshift.report.messages.book import folder_texts
from loamshift.report.words import Words
from loamshift.services.advise import LookAhead, advise
from loamshift.web.beds.case_form import case_form
from marked import marked_reader, words_left

EXAMPLES = sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
TODAY = date(2026, 11, 30)
UK, US = Words("uk", "metric"), Words("us", "us")


def test_message_files_and_code_agree() -> None:
    assert list(checker.all_faults()) == []


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        ("hint-soil-colour = What it looks like.\n", "hint-soil-colour belongs to no key"),
        ("answer-means-dose-taste = Its taste.\n", "answer-means-dose-taste belongs to no key"),
        ("a-key = One { $n ->\n    [one] thing\n}\n", "not a message"),
        ("verdict-no-ph = Twice.\n", "stands also in"),
        ("nobody-asks = Nothing.\n", "nothing asks for nobody-asks"),
    ],
)
def test_a_broken_file_is_found(
    text: str, fault: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _copied(tmp_path)
    (tmp_path / "en" / "zz.ftl").write_text(text, encoding="utf-8")
    monkeypatch.setattr(checker, "HOME", tmp_path)
    assert any(fault in line for line in checker.all_faults())


@pytest.mark.parametrize(
    ("old", "new", "fault"),
    [
        ("verdict-no-ph = ", "verdict-no-ph-gone = ", "no message verdict-no-ph"),
        (
            "tested at { $reading }, within",
            "tested, within",
            "verdict-in-range never says $reading",
        ),
        ("It tested at { $reading }, within", "{ $who } { $reading }", "needs $who"),
    ],
)
def test_a_message_that_code_asks_for_otherwise_is_found(
    old: str, new: str, fault: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _copied(tmp_path)
    file = tmp_path / "en" / "verdict.ftl"
    text = file.read_text(encoding="utf-8")
    assert old in text
    file.write_text(text.replace(old, new), encoding="utf-8")
    monkeypatch.setattr(checker, "HOME", tmp_path)
    assert any(fault in line for line in checker.all_faults())


@pytest.mark.parametrize(
    ("file", "key"),
    [
        ("keys-soil.ftl", "means-soil-fizz"),
        ("keys-soil.ftl", "field-soil-fizz-in-text"),
        ("keys-care.ftl", "means-applied"),
        ("label-keys.ftl", "label-on-bags-p2o5-pct"),
        ("answer-keys.ftl", "answer-means-plan-rule-share-harmed"),
    ],
)
def test_a_key_without_its_words_is_found(
    file: str, key: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    _copied(tmp_path)
    text = (tmp_path / "en" / file).read_text(encoding="utf-8")
    left = re.sub(rf"(?m)^{key} = .*\n", "", text)
    assert left != text
    (tmp_path / "en" / file).write_text(left, encoding="utf-8")
    monkeypatch.setattr(checker, "HOME", tmp_path)
    assert any(f"no message {key}, which a key needs" in line for line in checker.all_faults())


def test_a_translation_without_a_form_of_its_plural_is_found(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Polish has few and many beside one and other."""
    _copied(tmp_path)
    (tmp_path / "pl").mkdir()
    text = (
        "bed-whole = { $kind ->\n   *[ground] { $count ->\n        [one] a\n"
        "       *[other] b\n    }\n}\n"
    )
    (tmp_path / "pl" / "bed.ftl").write_text(text, encoding="utf-8")
    monkeypatch.setattr(checker, "HOME", tmp_path)
    faults = list(checker.all_faults())
    assert any("bed-whole has no form “few” of $count" in line for line in faults)


def test_a_message_without_its_figure_is_never_printed() -> None:
    with pytest.raises(LoamshiftError, match="verdict-start"):
        say(message("verdict-start", rate=rate(98.0)), UK)
    with pytest.raises(LoamshiftError, match="no message"):
        say(message("no-such-message"), UK)


def _copied(folder: Path) -> None:
    for name in ("en", "en-US"):
        (folder / name).mkdir()
        for file, text in folder_texts(name).items():
            (folder / name / file).write_text(text, encoding="utf-8")


@pytest.fixture
def marked(monkeypatch: pytest.MonkeyPatch) -> Words:
    """A reader of a third language, whose every text stands in brackets; German by its figures."""
    return marked_reader(monkeypatch)


def _letters(case: Case, words: Words) -> Letter:
    answer = advise(case, look_ahead=LookAhead(members=40))
    return letter_from_answer(answer, case, words=words)


@pytest.mark.parametrize("page", [case_page, answer_page], ids=["case", "answer"])
def test_no_word_of_the_reference_is_left_in_code(
    page: Callable[[Words], str], marked: Words
) -> None:
    """What stays is code, or a figure of a table with its unit, evidence and source."""
    rows = [line for line in page(marked).split("\n") if "{src}`" not in line]
    text = re.sub(r"```.*?```|`[^`\n]*`", " ", "\n".join(rows), flags=re.DOTALL)
    assert not _left_in_reference(text)


def test_no_word_of_a_schema_is_left_in_code(marked: Words) -> None:
    for schema in (case_schema(marked), answer_schema(marked)):
        letter = {part.__name__ for part in letter_parts()}
        for where, text in _descriptions(schema):
            if where.split("/")[1:2] != ["$defs"] or where.split("/")[2] not in letter:
                assert not _left_in_reference(text), where


def test_no_word_of_a_form_or_a_new_case_file_is_left_in_code(marked: Words) -> None:
    for group in case_form({}, words=marked):
        rows = [line for row in group.rows for line in row.lines]
        for line in (*group.usual, *group.others, *rows):
            assert not _left_in_reference(f"{line.label} {line.hint}"), line.path
    text = case_toml({"soil": {"ph": 7.2}}, words=marked)
    comments = [line.partition("# ")[2] for line in text.splitlines() if "# " in line]
    assert comments
    for comment in comments:
        if not re.match(r"[a-z_]+ = ", comment):
            assert not _left_in_reference(comment), comment


def _left_in_reference(text: str) -> set[str]:
    """Words in no brackets, but for units and two spellings that are read alike."""
    bare = re.sub(r"⟦[^⟦⟧]*⟧|[A-Za-z0-9]+/[A-Za-z0-9/]+|{src}", " ", text)
    allowed = {"CaCO", "und", "oder", "degC", "cmol", "mmol", "ppm", "sulfur", "sulphur"}
    return {word for word in re.findall(r"[^\W\d_]{3,}", bare) if word not in allowed}


def _descriptions(node: object, at: str = "") -> Iterator[tuple[str, str]]:
    if isinstance(node, dict):
        for key, value in node.items():
            if key in ("description", "title") and isinstance(value, str):
                yield f"{at}/{key}", value
            else:
                yield from _descriptions(value, f"{at}/{key}")
    elif isinstance(node, list):
        for value in node:
            yield from _descriptions(value, at)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_no_word_of_a_letter_is_left_in_code(path: Path, marked: Words) -> None:
    case = read_case(path, today=TODAY)
    letter = _letters(case, marked)
    own = tuple(part for part in letter.sections if part.matter is not Matter.SOURCES)
    text = plain_text(letter_lines(replace(letter, sections=own), width=10_000))
    left = words_left(text, case)
    assert not left, " ".join(sorted(left))


def test_another_language_has_its_own_marks_in_a_figure(marked: Words) -> None:
    assert marked.rate(1234.0) == "1,25 ⟦kg/m²⟧"
    assert marked.date(date(2026, 4, 12)) == "12. April 2026"


def test_a_figure_never_passes_through_a_rounded_text() -> None:
    """Kept in metric and read in pounds, each of 19,999 rates is said as if it came directly."""
    for tenth in range(1, 20_000):
        asked = message("verdict-start", rate=rate(tenth / 10.0), product=message("number-1"))
        assert say(asked, US) == f"Start with {US.rate(tenth / 10.0)} of one."


def test_an_answer_kept_in_metric_is_told_in_pounds_from_its_own_figures() -> None:
    case = read_case(EXAMPLES[6], today=TODAY)
    answer = advise(case)
    kept = answer_from_json(answer_to_json(answer, case=case))
    assert kept.verdict.because == answer.verdict.because
    assert say(kept.verdict.because, US) == say(answer.verdict.because, US)


def test_a_limit_and_what_is_compared_with_it_never_read_alike() -> None:
    for words in (UK, US):
        for step in range(1, 400):
            limit = 34.0 + 0.7 * step
            amount = limit * (1.0 + 0.002 * (1 + step % 60))
            said = words.measure(Measure(Quantity.RATE, amount, against=limit))
            compared = words.measure(Measure(Quantity.RATE, limit, against=amount))
            assert _number(said) > _number(compared)


def _number(text: str) -> float:
    return float(re.match(r"[\d,.]+", text).group().replace(",", ""))  # type: ignore[union-attr]
