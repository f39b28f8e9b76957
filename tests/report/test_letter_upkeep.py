from __future__ import annotations

from dataclasses import replace

import pytest

from loamshift.domain.answer import (
    Answer,
    Decision,
    Direction,
    DoNothing,
    Forecast,
    ForecastPh,
    LedgerLine,
    Reason,
)
from loamshift.domain.case import Case
from loamshift.domain.message import Measure, Message, message, ph, prose
from loamshift.report.holding import pull_back, undoes, upkeep_habit
from loamshift.report.ledger_lines import called, in_text
from loamshift.report.letter_upkeep import keeping, what_pulls
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.services.advise import LookAhead, advise
from loamshift.services.upkeep.upkeep import LINES
from report.answers import ALL
from report.examples import NAMES, example_answers
from report.sections import said, table
from services.beds import bed

UK = Words("uk", "metric")
US = Words("us", "us")


def test_the_ledger_is_told_in_words_without_signs() -> None:
    section = what_pulls(*ALL["effort"](), words=UK)
    rows = {row[0]: row[1:] for row in table(section).rows}
    assert rows["Irrigation water"] == ("raises the pH", "98 g/m² of pure lime")
    assert rows["Nitrogen fertiliser"] == ("lowers the pH", "6.9 g/m² of pure sulphur")
    assert rows["Carbonic acid in rain"] == ("next to nothing", "")
    assert "Harvest" not in rows and "**Net effect**" in rows
    assert "The strongest influence is the irrigation water. In a year" in said(section)


@pytest.mark.parametrize("line", LINES)
def test_every_line_has_a_label_and_a_name_inside_a_sentence(line: str) -> None:
    name = message(f"ledger-{line.replace(' ', '-')}")
    for words in (UK, US):
        label, inside = called(name, words), in_text(name)
        assert label[:1].isupper()
        assert isinstance(inside, Message) and say(inside, words)[:1].islower()


def test_a_line_kept_by_an_earlier_version_is_still_told() -> None:
    assert called("sulfur of earlier years", UK) == "Sulphur of earlier years"


@pytest.mark.parametrize("name", ["effort", "go-acidify"])
def test_the_ledger_is_not_headed_as_the_front_sheet_is(name: str) -> None:
    told = said(what_pulls(*ALL[name](), words=UK))
    assert told.startswith("What changes the pH each year")


def test_a_still_year_is_said_to_be_still() -> None:
    answer, case = ALL["effort"]()
    assert answer.ledger is not None
    still = replace(answer.ledger, lines=(LedgerLine(name="rain", value=0.1),), net=0.1)
    text = said(what_pulls(replace(answer, ledger=still), case, words=UK))
    assert "Nothing here changes the pH enough to matter." in text


def kept(**changed: object) -> str:
    answer, case = ALL["effort"]()
    assert answer.upkeep is not None
    upkeep = replace(answer.upkeep, **changed)  # type: ignore[arg-type]
    return said(keeping(replace(answer, upkeep=upkeep), case, words=UK))


def test_upkeep_names_drift_feed_and_the_rest() -> None:
    text = kept()
    assert "the pH would rise by about 0.5 a year" in text
    assert "The water alone would undo the whole change in about seven years." in text
    assert "For 6.0 g/m² of nitrogen a year, give 29 g/m² of ammonium sulphate" in text
    assert "also apply 23 g/m² of pure sulphur a year" in text


@pytest.mark.parametrize(
    ("decision", "heading", "holds"),
    [
        (Decision.GO, "Keeping the pH there", True),
        (Decision.LEAVE, "Keeping the pH as it is", True),
        (Decision.STOP, "Once the pH has recovered", False),
        (Decision.ELSEWHERE, "From year to year", False),
    ],
)
def test_upkeep_speaks_of_what_was_decided(decision: Decision, heading: str, holds: bool) -> None:
    answer, case = ALL["effort"]()
    decided = replace(answer, verdict=replace(answer.verdict, decision=decision), applications=())
    text = said(keeping(decided, case, words=UK))
    assert text.startswith(heading)
    assert ("To hold the pH" in text) is holds
    assert "undo the whole change" not in text  # nothing was put on


def test_a_bed_that_is_left_alone_is_told_of_no_yearly_amount() -> None:
    answer, case = ALL["effort"]()
    left = replace(answer.verdict, decision=Decision.LEAVE, reason=Reason.IN_RANGE)
    text = said(keeping(replace(answer, verdict=left), case, words=UK))
    assert "29 g/m² of ammonium sulphate (sulphate of ammonia) would change" in text
    assert "apply sulphur or lime only if the test calls for it" in text
    assert "of pure" not in text and "give" not in text
    first = replace(answer.verdict, decision=Decision.MEASURE_FIRST)
    text = said(keeping(replace(answer, verdict=first), case, words=UK))
    assert "follows from the test you still need" in text and "g/m²" not in text


def test_a_yearly_amount_agrees_with_the_drift() -> None:
    text = kept(feed=(), drift_ph_year=0.0)
    assert "hardly change" in text
    assert "of pure" not in text and "undo the whole" not in text
    assert "apply 23 g/m² of pure sulphur a year" in kept(feed=(), drift_ph_year=0.2)
    guarded = prose(message("upkeep-lime-by-test", ph=ph(5.0)))
    limed = {"sulfur_as_s_g_m2_year": 0.0, "lime_as_caco3_g_m2_year": 20.0}
    assert "of pure" not in kept(comment=guarded, drift_ph_year=-0.2, **limed)
    untold = kept(comment=prose(message("upkeep-water-treated")), sulfur_as_s_g_m2_year=0.0)
    assert "Nothing more is needed" not in untold


def test_upkeep_changes_with_its_figures() -> None:
    assert "hardly change" in kept(drift_ph_year=0.0)
    assert "fall by about 0.05 a year" in kept(drift_ph_year=-0.05)
    assert "undo the whole" not in kept(years_water_undoes_dose=None)
    assert "within about a year" in kept(years_water_undoes_dose=0.8)
    assert "of pure lime" in kept(sulfur_as_s_g_m2_year=0.0, lime_as_caco3_g_m2_year=20.0)
    assert "Nothing more is needed" in kept(sulfur_as_s_g_m2_year=0.0)


# -- the front sheet ---------------------------------------------------------------------------


def figure(told: Message, name: str) -> float:
    measure = told.values[name]
    assert isinstance(measure, Measure)
    return measure.value


def acting(name: str, **changed: object) -> tuple[Answer, Case]:
    answer, case = example_answers()[name]
    assert answer.upkeep is not None
    return replace(answer, upkeep=replace(answer.upkeep, **changed)), case  # type: ignore[arg-type]


def test_the_habit_has_the_figures_of_the_upkeep() -> None:
    answer, case = acting("north-border")
    habit = upkeep_habit(answer, case)
    assert habit is not None and habit.key == "upkeep-habit-feed-sulfur"
    assert answer.upkeep is not None
    assert figure(habit, "rate") == answer.upkeep.sulfur_as_s_g_m2_year > 0.0
    text = say(habit, UK)
    assert text == (
        "Feed with ammonium sulphate (38 g/m² a year), and add 26 g/m² of pure sulphur each year."
    )
    assert text.split("(")[1].split(" a year")[0] in said(keeping(answer, case, words=UK))


@pytest.mark.parametrize(
    ("changed", "key"),
    [
        ({"feed": ()}, "upkeep-habit-sulfur"),
        ({"sulfur_as_s_g_m2_year": 0.0}, "upkeep-habit-feed"),
        ({"sulfur_as_s_g_m2_year": 0.0, "feed": ()}, "upkeep-habit-test"),
        (
            {"sulfur_as_s_g_m2_year": 0.0, "lime_as_caco3_g_m2_year": 20.0},
            "upkeep-habit-feed-lime",
        ),
        (
            {
                "sulfur_as_s_g_m2_year": 0.0,
                "lime_as_caco3_g_m2_year": 20.0,
                "drift_held_ph_year": -0.2,
                "feed": (),
            },
            "upkeep-habit-lime",
        ),
        (
            {
                "sulfur_as_s_g_m2_year": 0.0,
                "lime_as_caco3_g_m2_year": 20.0,
                "comment": prose(message("upkeep-lime-by-test")),
            },
            "upkeep-habit-feed-lime-by-test",
        ),
        (
            {
                "sulfur_as_s_g_m2_year": 0.0,
                "feed": (),
                "comment": prose(message("upkeep-falls")),
            },
            "upkeep-habit-lime-by-test",
        ),
        (
            {
                "sulfur_as_s_g_m2_year": 0.0,
                "feed": (),
                "comment": prose(message("upkeep-rises")),
            },
            "upkeep-habit-acid-by-test",
        ),
        ({"comment": prose(message("upkeep-water-treated"))}, "upkeep-habit-water-treated"),
        ({"comment": prose(message("upkeep-water-wins"))}, "upkeep-habit-water-wins"),
    ],
)
def test_the_habit_follows_what_is_left_to_do(changed: dict[str, object], key: str) -> None:
    habit = upkeep_habit(*acting("north-border", **changed))
    assert habit is not None and habit.key == key
    for words in (UK, US):
        assert all(len(part.split()) <= 25 for part in say(habit, words).split(". "))


def test_what_undoes_it_is_the_strongest_line_against_the_plan() -> None:
    answer, case = example_answers()["north-border"]
    told = pull_back(answer, case)
    assert told is not None and told.key == "upkeep-undo-water" and undoes(answer)
    assert answer.ledger is not None
    rows = {row[0]: row[2] for row in table(what_pulls(answer, case, words=UK)).rows}
    assert rows["Irrigation water"] == "110 g/m² of pure lime"
    assert say(told, UK).endswith("each year as liming with 110 g/m² of pure lime.")
    assert "alkalinity 180 mg/L" in say(told, UK)


def test_a_pull_no_test_would_show_is_none() -> None:
    told = pull_back(*example_answers()["cabbage-plot"])
    assert told is not None and told.key == "upkeep-undo-nothing"


def test_water_that_must_be_treated_is_named_whatever_was_decided() -> None:
    answer, case = example_answers()["patio-pots"]
    assert answer.verdict.reason is Reason.WATER
    told = pull_back(answer, case)
    assert told is not None and told.key == "upkeep-undo-water"


@pytest.mark.parametrize("decision", [Decision.STOP, Decision.MEASURE_FIRST, Decision.ELSEWHERE])
def test_nothing_is_held_or_undone_where_nothing_is_to_be_changed(decision: Decision) -> None:
    answer, case = example_answers()["north-border"]
    other = replace(answer, verdict=replace(answer.verdict, decision=decision))
    assert upkeep_habit(other, case) is None and pull_back(other, case) is None


def test_a_bed_that_is_left_has_no_change_to_undo_but_water_to_treat() -> None:
    answer, case = example_answers()["bean-rows"]
    assert answer.dose.direction is Direction.NONE and answer.upkeep is not None
    faster = replace(answer, upkeep=replace(answer.upkeep, drift_ph_year=-0.3))
    assert pull_back(answer, case) is None and pull_back(faster, case) is None
    treated, pots = example_answers()["patio-pots"]
    left = replace(treated, verdict=replace(treated.verdict, decision=Decision.LEAVE))
    told = pull_back(left, pots)
    assert told is not None and told.key == "upkeep-undo-water"


@pytest.mark.parametrize(("drift", "still"), [(0.0, "yes"), (-0.2, "no")])
def test_nothing_else_is_needed_only_where_the_ph_stays(drift: float, still: str) -> None:
    answer, case = acting("cabbage-plot", lime_as_caco3_g_m2_year=0.0, drift_held_ph_year=drift)
    habit = upkeep_habit(answer, case)
    assert habit is not None and habit.key == "upkeep-habit-test"
    assert habit.values["still"] == still


@pytest.mark.parametrize("name", NAMES)
def test_sentences_of_the_front_sheet_are_short(name: str) -> None:
    answer, case = example_answers()[name]
    for told in (upkeep_habit(answer, case), pull_back(answer, case)):
        for words in (UK, US):
            text = "" if told is None else say(told, words)
            assert all(len(part.split()) <= 25 for part in text.split(". ")), text


def test_a_drift_without_a_forecast_says_how_near_it_comes() -> None:
    answer, case = ALL["effort"]()
    quick = "Without a forecast we work this out for the soil as one mixed layer: in 9 of 10 beds"
    assert answer.forecast is None and quick in said(keeping(answer, case, words=UK))
    bands = ForecastPh(q05=(5.0,), q25=(5.0,), q50=(5.0,), q75=(5.0,), q95=(5.0,))
    ahead = Forecast(dates=(answer.today,), ph=bands, do_nothing=DoNothing(q50=(5.0,)), width=())
    assert quick not in said(keeping(replace(answer, forecast=ahead), case, words=UK))


@pytest.mark.parametrize("litres", [3, 1])
def test_without_a_forecast_a_pot_on_hard_water_drifts_as_with_one(litres: int) -> None:
    """The lime of the water near the top of a pot is met by the acid below in a mixed test."""
    case = bed(
        'ph = 5.0\nph_method = "water 1:5"\nmedium = "peat mix"',
        bed='kind = "container"\narea = "0.1 m2"\ndepth = "20 cm"\nplanted = true',
        more=f"[water]\nalkalinity = 250\nweekly = {litres}",
    )
    quick, column = advise(case), advise(case, look_ahead=LookAhead(members=40))
    assert quick.upkeep is not None and column.upkeep is not None
    assert column.upkeep.drift_ph_year == pytest.approx(quick.upkeep.drift_ph_year, rel=0.2)
    assert "as one mixed layer: in 9 of 10 beds" in said(keeping(quick, case, words=UK))
