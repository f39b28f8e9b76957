"""What the next test decides, the headline amount, and answers to an open question."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date
from itertools import pairwise

import pytest

from loamshift.domain.answer import Answer, Decision, Direction, Then
from loamshift.domain.case import Case
from loamshift.domain.letter import Items, Letter, Note, Paragraph, Section, Table
from loamshift.domain.ph import PhMethod, PhReading
from loamshift.report.card.bed import bed_card
from loamshift.report.card.plain import card_letter
from loamshift.report.headline import headline, next_test, sure_parts
from loamshift.report.letter import letter_from_answer
from loamshift.report.letter_branches import depends_on
from loamshift.report.letter_decides import chances, what_the_test_decides
from loamshift.report.letter_need import first_as_pure_g_m2, how_much
from loamshift.report.letter_plan import what_to_do
from loamshift.report.terminal import letter_text
from loamshift.report.words import Words
from report.answers import DOLOMITE, effort_acidify, go_acidify, go_lime, ledger, open_lime, rule
from wording import read

UK, US = Words("uk", "metric"), Words("us", "us")


def decided(answer: Answer, case: Case, words: Words = UK) -> tuple[Table, str]:
    """The table of what the test decides, and the paragraphs below it."""
    section = what_the_test_decides(answer, case, words=words)
    assert section is not None
    (table,) = (block for block in section.blocks if isinstance(block, Table))
    return table, " ".join(b.text for b in section.blocks if isinstance(b, Paragraph))


def odds(answer: Answer, case: Case) -> str:
    return " ".join(read(one) for one in chances(answer, case))


def read_by(method: PhMethod) -> Case:
    """The bed of the rule, read by another method."""
    _, case = rule()
    reading = PhReading(ph=6.4, method=method, taken=date(2026, 3, 20))
    return replace(case, soil=replace(case.soil, ph=reading))


def with_plan(answer: Answer, **changed: object) -> Answer:
    assert answer.plan is not None
    return replace(answer, plan=replace(answer.plan, **changed))  # type: ignore[arg-type]


# -- the table ---------------------------------------------------------------------------------


def test_each_range_of_readings_has_its_line() -> None:
    answer, _ = rule()
    table, _ = decided(answer, read_by(PhMethod.WATER_1_1))
    assert table.caption == "Test on 28 March 2027; amounts of sulphur powder"
    assert [column.title for column in table.columns] == ["pH in water", "then", "for the bed"]
    assert table.rows == (
        ("6.4 or more", "84 g/m² on 12 April 2027", "1.0 kg"),
        ("5.9 to 6.3", "45 g/m² on 12 April 2027", "540 g"),
        ("5.5 to 5.8",
         "nothing now, as the sulphur is still working; test again in March 2028", ""),
        ("5.4 or less", "nothing more", ""),
    )  # fmt: skip


def test_the_reading_that_calls_for_most_stands_first_whatever_the_order_of_the_plan() -> None:
    answer, case = rule()
    assert answer.plan is not None
    turned = with_plan(answer, decides=answer.plan.decides[::-1])
    assert decided(turned, case) == decided(answer, case)


def test_us_readers_get_their_units_and_dates() -> None:
    table, text = decided(*rule(), words=US)
    assert table.caption == "Test on March 28, 2027; amounts of elemental sulfur (powder)"
    assert table.rows[0][2:] == ("1.7 lb/100 sq ft on April 12, 2027", "2.2 lb")
    assert "April 20, 2029" in text


def test_a_bed_read_in_calcium_chloride_has_its_own_column() -> None:
    """0.6 lower, as the conversion of New South Wales has it (nsw-dpi-acidity-2021)."""
    table, text = decided(*rule())
    assert [column.title for column in table.columns][:2] == [
        "pH in water", "pH in calcium chloride",
    ]  # fmt: skip
    assert [row[1] for row in table.rows] == [
        "5.8 or more", "5.3 to 5.7", "4.9 to 5.2", "4.8 or less",
    ]  # fmt: skip
    assert "was in calcium chloride: use that column" in text
    assert "between 4.8 and 5.8 in water on" in text


@pytest.mark.parametrize("method", [PhMethod.CACL2, PhMethod.KCL, PhMethod.WATER_1_5])
def test_every_reading_in_the_own_method_has_just_one_line(method: PhMethod) -> None:
    table, _ = decided(rule()[0], read_by(method))
    ends = [[float(n) for n in re.findall(r"\d+\.\d", row[1])] for row in table.rows]
    for upper, lower in pairwise(ends):
        assert min(upper) == pytest.approx(max(lower) + 0.1)
    assert "or more" in table.rows[0][1] and "or less" in table.rows[-1][1]


@pytest.mark.parametrize("method", [PhMethod.PROBE, PhMethod.STRIP, PhMethod.UNKNOWN])
def test_a_rough_reading_has_no_column_but_is_told_what_the_values_are(method: PhMethod) -> None:
    table, text = decided(rule()[0], read_by(method))
    assert len(table.columns) == 3
    assert "pH in water, as a laboratory tests it" in text


def test_without_an_area_there_is_no_column_for_the_bed() -> None:
    answer, case = rule()
    bare = replace(
        answer,
        applications=tuple(replace(part, amount_g=None) for part in answer.applications),
    )
    table, _ = decided(bare, replace(case, bed=replace(case.bed, area_m2=None)))
    assert [column.title for column in table.columns][-1] == "then"


def test_a_line_may_be_one_tenth_and_a_table_one_line() -> None:
    answer, _ = rule()
    assert answer.plan is not None
    line = replace(answer.plan.decides[2], reads_from=5.8, reads_to=5.8, then=Then.DONE)
    only = replace(line, reads_from=None, reads_to=None)
    case = read_by(PhMethod.WATER_1_1)
    table, _ = decided(with_plan(answer, decides=(line,)), case)
    assert table.rows[0][0] == "5.8" and table.caption == "Test on 28 March 2027"
    assert decided(with_plan(answer, decides=(only,)), case)[0].rows[0][0] == "any reading"


def test_the_next_test_is_a_year_on_where_none_is_named() -> None:
    answer, case = rule()
    table, _ = decided(replace(answer, retest=answer.retest[:1]), case)
    assert "test again in March 2028" in table.rows[2][2]
    late = replace(answer, retest=(date(2027, 3, 28), date(2028, 10, 3)))
    assert "test again in October 2028" in decided(late, case)[0].rows[2][2]


def test_lime_is_said_to_be_still_working() -> None:
    answer, case = rule()
    limed = with_plan(answer, material=DOLOMITE)
    assert "as the lime is still working" in decided(limed, case)[0].rows[2][2]


def test_two_tests_have_two_tables() -> None:
    answer, case = rule()
    assert answer.plan is not None
    later = tuple(replace(line, test=date(2028, 3, 26)) for line in answer.plan.decides)
    section = what_the_test_decides(
        with_plan(answer, decides=(*answer.plan.decides, *later)), case, words=UK
    )
    assert section is not None
    tables = [block for block in section.blocks if isinstance(block, Table)]
    assert [t.caption and t.caption[:22] for t in tables] == [
        "Test on 28 March 2027;", "Test on 26 March 2028;",
    ]  # fmt: skip


# -- chances -----------------------------------------------------------------------------------


def test_chances_are_counts_of_100_such_beds() -> None:
    answer, _ = rule()
    assert odds(answer, read_by(PhMethod.WATER_1_1)) == (
        "Of 100 beds like this one treated this way, about 62 would be between 4.8 and 5.8 on "
        "20 April 2029 and a year later. With the best single amount and no test, about 31 in 100 "
        "would. In about 3 of 100 such beds, the plan itself would make the soil too acid for the "
        "plants at some point."
    )


@pytest.mark.parametrize(("share", "said"), [(0.0, False), (0.0099, False), (0.01, True)])
def test_harm_is_said_from_one_in_a_hundred_on(share: float, said: bool) -> None:
    answer, case = rule()
    assert ("the plan itself" in odds(with_plan(answer, share_harmed=share), case)) is said


def test_lime_harms_the_other_way() -> None:
    answer, case = rule()
    limed = replace(answer, dose=replace(answer.dose, direction=Direction.LIME))
    assert "too alkaline for the plants" in odds(limed, case)


@pytest.mark.parametrize(
    ("share", "said"),
    [(0.0, "fewer than 1"), (0.0099, "fewer than 1"), (0.01, "about 1"), (0.616, "about 62"),
     (0.99, "about 99"), (0.996, "more than 99"), (1.0, "more than 99")],
)  # fmt: skip
def test_a_share_is_never_nought_or_all(share: float, said: str) -> None:
    assert UK.in_100(share) == said


def test_a_plan_without_a_test_has_only_its_chances() -> None:
    answer, case = rule()
    section = what_the_test_decides(with_plan(answer, decides=()), case, words=UK)
    assert section is not None and section.heading == "How likely this is to work"
    (only,) = section.blocks
    assert isinstance(only, Paragraph) and "no test" not in only.text


def test_no_plan_and_an_idle_plan_have_no_section() -> None:
    answer, case = rule()
    assert what_the_test_decides(replace(answer, plan=None), case, words=UK) is None
    idle = with_plan(answer, parts=(), decides=())
    assert what_the_test_decides(idle, case, words=UK) is None


def test_a_letter_that_waits_for_a_test_tells_no_course_of_a_plan_it_advises_against() -> None:
    assert what_the_test_decides(*open_lime(), words=UK) is None
    letter = letter_from_answer(*open_lime(), words=UK)
    topics = {section.topic for section in letter.working}
    assert not topics & {"decides", "expect", "options"} and "need" in topics
    assert what_the_test_decides(*rule(), words=UK) is not None


def _own_prose() -> str:
    sections: list[Section | None] = []
    for answer, case in (rule(), open_lime()):
        sections += [what_the_test_decides(answer, case, words=UK), depends_on(answer, words=UK)]
    texts = []
    for section in sections:
        for block in section.blocks if section is not None else ():
            if isinstance(block, (Paragraph, Note)):
                texts.append(block.text)
            elif isinstance(block, Items):
                texts += block.items
    return " ".join(texts)


def test_sentences_are_short() -> None:
    for sentence in re.split(r"(?<=[.!?]) ", _own_prose()):
        assert len(sentence.split()) <= 26, sentence


# -- the headline amount -----------------------------------------------------------------------


def test_the_headline_is_what_goes_on_and_the_need_stands_behind_it() -> None:
    answer, case = rule()
    assert "720 g of sulphur powder on 20 April 2026" in read(headline(answer, case))
    section = how_much(answer, case, words=UK)
    assert section is not None
    need, first = (block.text for block in section.blocks[:2] if isinstance(block, Paragraph))
    assert "anywhere from 78 to 260 g/m²" in need and "pure sulphur" in need
    assert first.startswith(
        "We suggest starting with 60 g/m² of sulphur powder, as bought: 720 g for the bed."
    )
    assert "smaller on purpose" in first


def test_a_first_application_of_the_whole_need_is_not_called_smaller() -> None:
    answer, case = rule()
    assert answer.plan is not None
    (part,) = answer.plan.parts
    whole = with_plan(answer, parts=(replace(part, rate_g_m2=140.0),))
    assert "on purpose" not in str(how_much(whole, case, words=UK))


def test_more_than_the_need_is_said_to_be_undone_in_part() -> None:
    answer, case = rule()
    assert answer.plan is not None
    (part,) = answer.plan.parts
    more = with_plan(answer, parts=(replace(part, rate_g_m2=170.0),))
    more = replace(more, verdict=replace(more.verdict, ph_now=6.7))
    watered = replace(more, ledger=ledger(water=-900.0))
    assert "part of it will be undone every year" in str(how_much(watered, case, words=UK))
    little = replace(more, ledger=ledger(water=-200.0))
    assert "undone" not in str(how_much(little, case, words=UK)), "no test would show it"
    assert "undone" not in str(how_much(more, case, words=UK))
    acid = replace(more, ledger=ledger(water=0.0, feed=900.0))
    assert "undone" not in str(how_much(acid, case, words=UK))


def test_without_a_rule_the_sure_parts_are_the_headline() -> None:
    answer, case = effort_acidify()
    assert [part.rate_g_m2 for part in sure_parts(answer)] == [98.0]
    assert next_test(answer) == date(2026, 8, 18)
    assert "of sulphur powder on 4 May 2026" in read(headline(answer, case))
    once = replace(answer, applications=answer.applications[:1])
    assert next_test(once) is None


def test_several_sure_applications_are_counted() -> None:
    answer, case = go_acidify()
    sure = tuple(replace(part, only_if=None) for part in answer.applications)
    text = read(headline(replace(answer, applications=sure), case))
    assert "sulphur powder in two applications, the first of 420 g on 14 April 2026" in text


def test_nothing_yet_is_said_where_the_test_comes_first() -> None:
    answer, case = rule()
    waits = replace(with_plan(answer, parts=()), applications=())
    assert read(headline(waits, case)) == "Apply nothing yet: the test on 28 March 2027 decides."


def test_a_front_sheet_that_waits_for_a_test_has_no_weights() -> None:
    """A weight under "do not spread anything yet" is spread."""
    answer, case = open_lime()
    front = letter_from_answer(answer, case, words=UK).front
    text = letter_text(Letter("", "", front))
    assert "Do not spread anything yet." in text and "If nothing fizzes" in text
    assert not re.search(r"\d (?:k?g)(?!/m²)\b", text), text


def test_what_goes_on_first_is_counted_as_pure_only_where_it_can_be() -> None:
    answer, _ = go_lime()
    lime = first_as_pure_g_m2(answer)
    assert lime is not None and 0.7 * 240.0 < lime <= 240.0
    assert answer.applications
    unknown = replace(answer.applications[0], material="gone since")
    assert first_as_pure_g_m2(replace(answer, applications=(unknown,))) is None
    assert first_as_pure_g_m2(replace(answer, applications=())) is None


def test_what_the_test_decides_is_not_listed_twice() -> None:
    answer, case = rule()
    section = what_to_do(answer, case, words=UK)
    assert section is not None
    (table,) = (block for block in section.blocks if isinstance(block, Table))
    assert [row[0] for row in table.rows] == ["20 April 2026"]
    without = what_to_do(replace(answer, plan=None), case, words=UK)
    assert without is not None
    (table,) = (block for block in without.blocks if isinstance(block, Table))
    assert len(table.rows) == 2


def test_a_plan_of_conditional_parts_alone_still_lists_them() -> None:
    answer, case = rule()
    later = replace(answer, applications=answer.applications[1:])
    section = what_to_do(later, case, words=UK)
    assert section is not None and "only if" in str(section.blocks)


# -- open questions ----------------------------------------------------------------------------


def test_each_outcome_has_its_chance_and_its_advice() -> None:
    section = depends_on(open_lime()[0], words=UK)
    assert section is not None and section.heading == "What it depends on"
    lead, items = section.blocks
    assert lead == Paragraph("A fizz test would settle which of these holds.")
    assert items == Items(
        (
            "**If nothing fizzes** (about 60 in 100): about 440 g/m² of pure sulphur, "
            "with more effort than usual.",
            "**If it fizzes** (about 40 in 100): about 4.1 kg/m² of pure sulphur would be "
            "needed, so use another place.",
        )
    )


@pytest.mark.parametrize(
    ("decision", "amount", "said"),
    [
        (Decision.GO, 440.0, "about 440 g/m² of pure sulphur."),
        (Decision.GO, None, "go ahead."),
        (Decision.EFFORT, None, "more effort than usual."),
        (Decision.ELSEWHERE, None, "use another place."),
        (Decision.LEAVE, None, "leave the pH alone."),
        (Decision.STOP, None, "apply nothing."),
        (Decision.MEASURE_FIRST, None, "another test is needed first."),
        (Decision.MEASURE_FIRST, 90.0,
         "another test is needed first; about 90 g/m² of pure sulphur."),
    ],
)  # fmt: skip
def test_every_decision_has_its_words(decision: Decision, amount: float | None, said: str) -> None:
    answer, _ = open_lime()
    one = replace(answer.branches[0], decision=decision, sulfur_as_s_g_m2=amount)
    text = str(depends_on(replace(answer, branches=(one,)), words=UK))
    assert f"(about 60 in 100): {said}" in text


def test_a_laboratory_and_a_question_without_words_of_its_own() -> None:
    answer, _ = open_lime()
    first, second = answer.branches
    found = replace(first, field="soil.carbonate_pct")
    other = replace(
        second, field="water.alkalinity", outcome="hard-water", sulfur_as_s_g_m2=None,
        lime_as_caco3_g_m2=50.0,
    )  # fmt: skip
    text = str(depends_on(replace(answer, branches=(found, other)), words=UK))
    assert "If it finds no free lime" in text
    assert "If the alkalinity is lower than we guess" in text
    assert "50 g/m² of pure lime" in text


def test_every_amount_of_lime_has_its_own_fizz() -> None:
    answer, _ = open_lime()
    none, some = answer.branches
    many = (none, *(replace(some, outcome=f"{much}-lime") for much in ("some", "more", "much")))
    text = str(depends_on(replace(answer, branches=many), words=UK))
    places = [
        text.index(f"**{said}**")
        for said in ("If nothing fizzes", "If it fizzes a little", "If it fizzes clearly",
                     "If it fizzes strongly")
    ]  # fmt: skip
    assert places == sorted(places)
    found = tuple(replace(branch, field="soil.carbonate_pct") for branch in answer.branches)
    assert "**If it finds free lime**" in str(depends_on(replace(answer, branches=found), words=UK))


def test_nothing_open_needs_no_section() -> None:
    assert depends_on(rule()[0], words=UK) is None


# -- the whole letter and the card -------------------------------------------------------------


@pytest.mark.parametrize("words", [UK, US], ids=["uk", "us"])
def test_the_letter_of_an_answer_by_a_rule_never_speaks_of_an_amount_by_the_forecast(
    words: Words,
) -> None:
    for answer, case in (rule(), open_lime()):
        text = letter_text(letter_from_answer(answer, case, words=words))
        assert "by the forecast" not in text.lower()
        assert "What each test decides" in text or "What that test decides" in text


def test_the_sections_stand_where_they_are_needed() -> None:
    order = [s.heading for s in letter_from_answer(*rule(), words=UK).sections]
    assert order.index("When, and how") + 1 == order.index("What each test decides")
    assert order.index("Do this") < order.index("How much, and why")
    order = [s.heading for s in letter_from_answer(*open_lime(), words=UK).sections]
    assert order.index("What that test decides") < order.index("How much, as far as we can say now")
    assert "What it depends on" not in order


def test_the_card_has_the_table_and_only_what_goes_on_for_sure() -> None:
    text = " ".join(letter_text(card_letter(bed_card(*rule(), words=UK))).split())
    assert "What each test decides" in text and "6.4 or more" in text
    assert "Test on 28 March 2027; amounts of sulphur powder." in text
    assert text.count("☐") == 1
    assert "What each test decides" not in letter_text(
        card_letter(bed_card(*effort_acidify(), words=UK))
    )
