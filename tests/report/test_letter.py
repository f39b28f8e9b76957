"""The whole letter: which sections it has, and that every text in it reads well."""

from __future__ import annotations

import re
from dataclasses import fields, replace
from pathlib import Path

import pytest

from loamshift.domain.answer import Answer, Decision
from loamshift.domain.case import Case
from loamshift.domain.letter import Block, Figure, Items, Letter, Matter, Note, Paragraph, Table
from loamshift.report.letter import letter_from_answer
from loamshift.report.letter_care import OWN_SECTIONS, RULES_LINE, cautions_to_handle
from loamshift.report.markdown import letter_markdown
from loamshift.report.terminal import letter_text
from loamshift.report.words import Words
from loamshift.tables.rules import load_cautions
from report.answers import ALL, BASELINES, NO_DOSE, baseline, blank, cautions, sources
from report.examples import NAMES, example_answers
from wording import read

UK = Words("uk", "metric")
US = Words("us", "us")
READERS = {"uk": UK, "us": US, "uk-us": Words("uk", "us"), "us-metric": Words("us", "metric")}
FOLDER = Path(__file__).parents[1] / "baselines"

EVERY = [
    pytest.param(name, words, id=f"{name} {reader}")
    for name in ALL
    for reader, words in READERS.items()
]


def letter(name: str, words: Words = UK) -> Letter:
    answer, case = ALL[name]()
    return letter_from_answer(answer, case, words=words)


def of(answer: Answer, case: Case, words: Words = UK) -> str:
    return flat(letter_from_answer(answer, case, words=words))


def flat(made: Letter) -> str:
    return "\n".join([made.title, made.subtitle, *headings(made), *texts(made)])


def headings(made: Letter) -> list[str]:
    return [section.heading for section in made.sections if section.heading]


def texts_of(block: Block) -> list[str]:
    match block:
        case Paragraph(text) | Note(text, _):
            return [text]
        case Items(items, _):
            return list(items)
        case Table():
            titles = [column.title for column in block.columns]
            return [*titles, *(cell for row in block.rows for cell in row), block.caption or ""]
        case Figure():
            return [block.sentence]


def texts(made: Letter) -> list[str]:
    return [t for section in made.sections for block in section.blocks for t in texts_of(block)]


# -- every text reads well ---------------------------------------------------------------------


@pytest.mark.parametrize(("name", "words"), EVERY)
def test_nothing_unsaid_or_unfinished_is_printed(name: str, words: Words) -> None:
    text = "\n".join(body(letter(name, words)))
    for wrong in (r"\bNone\b", r"\bnan\b", r"\binf\b", "  ", r"\.\.", r" [,.;:]", r"_", r"g/m2"):
        found = re.search(wrong, text)
        assert not found, text[max(0, found.start() - 60) : found.end() + 20]


UNIT = r"(?:k?g/m²|kg|lb/100 sq ft|oz/100 sq ft|lb|oz|cm|sq ft|dS/m|mg/L)"


@pytest.mark.parametrize(("name", "words"), EVERY)
def test_no_unit_stands_without_its_number(name: str, words: Words) -> None:
    for text in texts(letter(name, words)):
        for found in re.finditer(rf"(?<!per )(?<![\w/]){UNIT}(?![\w/²])", text):
            titled = text.endswith(found[0]) and text[: found.start()].endswith(", ")
            assert titled or re.search(r"\d $", text[: found.start()]), text


@pytest.mark.parametrize(("name", "words"), EVERY)
def test_paragraphs_begin_and_end_as_sentences_do(name: str, words: Words) -> None:
    for section in letter(name, words).sections:
        if section.heading == "Sources":
            continue
        for block in section.blocks:
            if not isinstance(block, Table):
                for text in texts_of(block):
                    start = text.removeprefix("**")
                    assert start[0].isupper() or start[0].isdigit() or start.startswith("pH"), text
                    assert re.search(r"(?:[.!?:]|\.\*\*| \[\d+\])$", text), text
                    assert text.count("**") % 2 == 0, text


@pytest.mark.parametrize(("name", "words"), EVERY)
def test_lines_are_readable_on_a_terminal(name: str, words: Words) -> None:
    made = letter(name, words)
    for line in letter_text(made).splitlines():
        assert len(line) <= 88 or "http" in line, line
        assert line == line.rstrip()
    assert letter_markdown(made).startswith(f"# {made.title}\n")


def test_uk_and_us_words_do_not_mix() -> None:
    us_words = r"sulfur|aluminum|fertilizer|\bliters?\b"
    uk_words = r"sulphur|sulphate|aluminium|fertiliser|\blitres?\b"
    for name in ALL:
        for words, foreign in ((UK, us_words), (US, uk_words)):
            for section in letter(name, words).sections:
                if section.heading != "Sources":
                    said = " ".join(t for block in section.blocks for t in texts_of(block))
                    assert not re.search(foreign, said, re.IGNORECASE), (name, said)


@pytest.mark.parametrize("name", NAMES)
def test_metric_and_us_units_do_not_mix(name: str) -> None:
    answer, case = example_answers()[name]
    metric = " ".join(body(letter_from_answer(answer, case, words=UK)))
    assert not re.search(r"\d (?:lb|oz|sq ft)\b|°F", metric)
    us = " ".join(body(letter_from_answer(answer, case, words=US)))
    assert not re.search(r"\d (?:k?g|cm|mm|m²)\b|/m²|°C", us)


def body(made: Letter) -> list[str]:
    kept = [section for section in made.sections if section.heading != "Sources"]
    return [made.subtitle, *texts(Letter("", "", tuple(kept)))]


def test_dates_follow_the_spelling() -> None:
    assert "20 March 2026" in flat(letter("effort", UK))
    assert "March 20, 2026" in flat(letter("effort", US))
    assert "March 20, 2026" in flat(letter("effort", Words("us", "metric")))


# -- sections come with their data and only with them ------------------------------------------

GONE = {
    "How much, and why": ("effort", {"dose": NO_DOSE}),
    "When, and how": ("effort", {"applications": ()}),
    "If the test gives the result we expect": ("measure-first", {"applications": ()}),
    "Products that would do it": ("effort", {"options": ()}),
    "What will undo it": ("effort", {"ledger": None}),
    "Keeping the pH there": ("effort", {"upkeep": None}),
    "Putting it right": ("stop", {"rescue": None}),
    "The claim checked": ("effort", {"claims": ()}),
    "The claims checked": ("elsewhere", {"claims": ()}),
    "Worth measuring": ("effort", {"missing": ()}),
    "Checks": ("effort", {"findings": ()}),
    "Sources": ("effort", {"sources": ()}),
    "When to test again": ("leave", {"retest": (), "too_early_before": None}),
}


@pytest.mark.parametrize("heading", GONE)
def test_a_section_goes_with_its_data(heading: str) -> None:
    name, without = GONE[heading]
    answer, case = ALL[name]()
    before = headings(letter_from_answer(answer, case, words=UK))
    after = headings(letter_from_answer(replace(answer, **without), case, words=UK))  # type: ignore[arg-type]
    assert heading in before
    assert heading not in after
    new = set(after) - set(before)
    assert new <= {"When to test again", "What holds it there"}  # what stays, under its name


def test_the_least_letter_is_a_verdict_and_the_closing_words() -> None:
    made = letter("bare")
    assert headings(made) == ["Precautions"]
    assert read(RULES_LINE) in texts(made)


def test_the_reading_order() -> None:
    assert headings(letter("effort")) == [
        "Do this", "What will undo it", "Precautions", "Worth measuring before you start",
        "How much, and why", "When, and how", "Products that would do it",
        "What changes the pH each year", "Keeping the pH there", "The claim checked",
        "Worth measuring", "Checks", "Precautions", "Sources",
    ]  # fmt: skip


def test_what_to_do_comes_behind_the_verdict() -> None:
    for name in ("stop", "measure-first", "effort", "go-lime"):
        assert headings(letter(name))[0] == "Do this", name
    working = [part.heading for part in letter("stop").working]
    assert working[0] == "Putting it right"


@pytest.mark.parametrize("name", ALL)
def test_any_part_may_be_missing(name: str) -> None:
    """Each optional part alone taken away leaves a letter without holes."""
    answer, case = ALL[name]()
    for part in fields(Answer):
        value = getattr(answer, part.name)
        if isinstance(value, tuple) and value:
            answer_without = replace(answer, **{part.name: ()})
        elif part.name in ("too_early_before", "rescue", "upkeep", "ledger"):
            answer_without = replace(answer, **{part.name: None})
        else:
            continue
        text = of(answer_without, case)
        assert "None" not in text and "  " not in text, part.name


# -- cautions, sources, who made it ------------------------------------------------------------


def test_every_caution_is_printed_whole_under_its_name() -> None:
    answer, case = ALL["bare"]()
    everything = replace(answer, cautions=cautions(*load_cautions()))
    made = letter_from_answer(everything, case, words=UK)
    care = next(one for one in made.sections if one.matter is Matter.CARE)
    items = next(b.items for b in care.blocks if isinstance(b, Items))
    rules = load_cautions().values()
    of_care = [rule for rule in rules if rule.kind not in OWN_SECTIONS]
    for rule, item in zip(of_care, items, strict=True):
        assert item == f"**{read(rule.label)}.** {read(rule.text)}"
    others = replace(made, sections=tuple(part for part in made.sections if part is not care))
    told = " ".join(letter_markdown(others).split())
    for rule in rules:
        if rule not in of_care:
            assert " ".join(read(rule.text).split()) in told, rule.code


def test_every_caution_has_a_name_of_its_own() -> None:
    labels = {code: read(rule.label) for code, rule in load_cautions().items()}
    assert len(set(labels.values())) == len(labels)
    for code, label in labels.items():
        assert not read(load_cautions()[code].text).startswith(f"{label} "), code


def test_a_front_sheet_warns_only_of_what_is_handled() -> None:
    answer, _ = ALL["bare"]()
    dust, early = cautions("sulfur-dust", "too-early")
    assert cautions_to_handle(replace(answer, cautions=(dust, early))) == (dust,)
    compared = replace(dust, handling=False)
    assert cautions_to_handle(replace(answer, cautions=(compared, early))) == ()
    kept = tuple(replace(one, short="", handling=False) for one in (dust, early))
    (known,) = cautions_to_handle(replace(answer, cautions=kept))
    assert (known.code, known.short) == ("sulfur-dust", dust.short), "by its code alone"


@pytest.mark.parametrize("name", [name for name in ALL if name != "bare"])
def test_numbers_behind_texts_point_into_the_list_of_sources(name: str) -> None:
    answer, case = ALL[name]()
    made = letter_from_answer(answer, case, words=UK)
    listed = listed_sources(made)
    citations = {line.key: line.citation for line in answer.sources}
    said_by_plan = {"too-early"} if answer.too_early_before is not None else set()
    said_by_plan |= {"split"} if answer.plan is not None and answer.plan.parts else set()
    for caution in answer.cautions:
        if caution.code in said_by_plan:
            assert not any(read(caution.text) in t for t in texts(made)), "said with figures"
            continue
        item = next(t for t in texts(made) if read(caution.text) in t)
        number = int(item.rsplit("[", 1)[1].rstrip("]"))
        assert listed[number - 1].startswith(citations[str(caution.source_key)])


@pytest.mark.parametrize("name", [name for name in ALL if name != "bare"])
def test_every_source_listed_carries_a_number_of_the_letter(name: str) -> None:
    answer, case = ALL[name]()
    unused = sources("pierre-1933", "aitken-1990")
    more = replace(answer, sources=(*unused, *answer.sources))
    made = letter_from_answer(more, case, words=UK)
    cited = [n for t in texts(made) for n in re.findall(r" \[(\d+)\]$", t)]
    assert list(dict.fromkeys(cited)) == [
        str(n) for n in range(1, 1 + len(listed_sources(made)))
    ], "in the order of reading, none left out and none over"


def listed_sources(made: Letter) -> tuple[str, ...]:
    items: list[str] = []
    for section in made.sections:
        if section.heading == "Sources":
            (listed,) = section.blocks
            assert isinstance(listed, Items) and listed.numbered and listed.items
            items.extend(listed.items)
    return tuple(items)


def test_sources_that_the_tables_no_longer_hold_are_printed_as_kept() -> None:
    answer, case = ALL["effort"]()
    old = replace(answer.sources[0], key="gone-since", citation="A book, 1931.")
    cited = replace(answer.cautions[0], source_key="gone-since")
    kept = replace(answer, sources=(old, *answer.sources), cautions=(cited,))
    assert "A book, 1931." in of(kept, case)


def test_the_letter_says_what_made_it() -> None:
    text = of(*ALL["go-lime"]())
    assert "Worked out with loamshift 0.1.0, model 1, tables 2026-04, for 3 October 2026." in text


# -- our own letters, word for word ------------------------------------------------------------


@pytest.mark.parametrize("file", BASELINES)
def test_the_letter_is_the_one_that_was_read_and_found_good(file: str) -> None:
    kept = (FOLDER / file).read_text(encoding="utf-8")
    assert baseline(file) == kept


@pytest.mark.parametrize("decision", list(Decision))
def test_every_decision_opens_with_one_bold_sentence(decision: Decision) -> None:
    answer, case = ALL["bare"]()
    verdict = replace(answer.verdict, decision=decision, because="because of x")
    made = letter_from_answer(blank("n", case.today, verdict), case, words=UK)
    first, second = texts(made)[:2]
    assert re.fullmatch(r"\*\*[A-Z][^*]+\.\*\*", first), first
    assert second == "Because of x."
