from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

from loamshift.domain.answer import Answer, DoNothing, Forecast, ForecastPh, WidthShare
from loamshift.domain.letter import Paragraph, Table
from loamshift.domain.message import message
from loamshift.report.letter import letter_from_answer
from loamshift.report.letter_forecast import what_to_expect
from loamshift.report.words import Words
from report.answers import go_acidify, go_lime, leave, rule

UK = Words("uk", "metric")
WEEKS = 157


def flat(answer: Answer, *, middle: float) -> Answer:
    """The answer with an invented forecast that stays where it is."""
    course = {
        name: (middle + shift,) * WEEKS
        for name, shift in (("q05", -0.9), ("q25", -0.3), ("q50", 0), ("q75", 0.3), ("q95", 0.9))
    }
    return replace(
        answer,
        forecast=Forecast(
            dates=tuple(answer.today + timedelta(weeks=week) for week in range(WEEKS)),
            ph=ForecastPh(**course),
            do_nothing=DoNothing(q50=(7.0,) * WEEKS),
        ),
    )


def paragraphs(answer: Answer) -> list[str]:
    section = what_to_expect(answer, go_acidify()[1], words=UK)
    assert section is not None
    return [block.text for block in section.blocks if isinstance(block, Paragraph)]


def test_no_forecast_no_section() -> None:
    answer, _ = go_acidify()
    assert what_to_expect(answer, go_acidify()[1], words=UK) is None


def test_a_plan_is_said_beside_the_bed_left_alone() -> None:
    answer = flat(go_acidify()[0], middle=5.2)
    said, honest = paragraphs(answer)
    assert "to read about pH 5.2" in said and "90 would read between 4.3 and 6.1" in said
    assert "Untreated, the bed would read about 7.0." in said
    assert "not been able to check this forecast against measured sulphur trials" in honest


def test_a_plan_with_its_test_is_forecast_as_a_rule() -> None:
    said = paragraphs(flat(rule()[0], middle=5.4))[0]
    assert said.startswith("If you follow the plan and its tests, expect a careful test on")
    assert "stop it before it goes too far" not in said
    assert "stop it before it goes too far" in paragraphs(flat(go_lime()[0], middle=6.4))[0]


def test_liming_says_what_its_trials_showed() -> None:
    told = paragraphs(flat(go_lime()[0], middle=6.4))[-1]
    assert "90 in 100 readings" in told and "0.3 to 0.5 lower than forecast" in told


def test_without_a_plan_there_is_one_course() -> None:
    section = what_to_expect(flat(leave()[0], middle=6.5), leave()[1], words=UK)
    assert section is not None
    table = next(block for block in section.blocks if isinstance(block, Table))
    assert [column.title for column in table.columns] == [
        "on", "best estimate", "range for 90 in 100 tests",
    ]  # fmt: skip
    assert len(table.rows) == 5


def test_the_letter_holds_it_between_plan_and_options() -> None:
    answer, case = go_acidify()
    headings = [
        section.heading
        for section in letter_from_answer(flat(answer, middle=5.2), case, words=UK).sections
    ]
    assert headings.index("What to expect") == headings.index("When, and how") + 1


def test_the_width_is_a_table_of_at_most_four_causes_and_the_rest() -> None:
    answer = flat(go_acidify()[0], middle=5.2)
    assert answer.forecast is not None
    shares = (("buffering", 0.4), ("sulfur", 0.2), ("first-reading", 0.15), ("wetness", 0.1))
    more = (("soil-mass", 0.08), ("leaching", 0.07))
    width = tuple(WidthShare(message(f"cause-{cause}"), share) for cause, share in (*shares, *more))
    answer = replace(answer, forecast=replace(answer.forecast, width=width))
    section = what_to_expect(answer, go_acidify()[1], words=UK)
    assert section is not None
    table = [block for block in section.blocks if isinstance(block, Table)][-1]
    assert [row[0] for row in table.rows] == [
        "how strongly the soil resists", "how fast sulphur turns to acid",
        "the error of the first reading", "how wet the soil is", "everything else",
    ]  # fmt: skip
    assert table.rows[-1][1] == "15%"


def test_one_cause_alone_needs_no_table() -> None:
    answer = flat(go_acidify()[0], middle=5.2)
    assert answer.forecast is not None
    width = (
        WidthShare(message("cause-buffering"), 0.97),
        WidthShare(message("cause-wetness"), 0.03),
    )
    answer = replace(answer, forecast=replace(answer.forecast, width=width))
    section = what_to_expect(answer, go_acidify()[1], words=UK)
    assert section is not None
    assert len([block for block in section.blocks if isinstance(block, Table)]) == 1
