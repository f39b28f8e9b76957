"""What a test on a day of one's own is worth: by its error, and while something is undecided."""

from __future__ import annotations

from datetime import date, timedelta
from functools import cache
from pathlib import Path

import pytest

from loamshift.case.read import parse_case
from loamshift.domain.case import Case
from loamshift.domain.message import Message
from loamshift.domain.worded_error import WordedError
from loamshift.services.worth import on_day
from loamshift.services.worth.on_day import worth_on_day

EXAMPLES = Path(__file__).parents[3] / "examples"


@cache
def example(name: str) -> Case:
    return parse_case((EXAMPLES / f"{name}.toml").read_text(encoding="utf-8"))


def keys(name: str, day: date) -> tuple[str, float | None]:
    told = worth_on_day(example(name), day, members=100)
    assert isinstance(told.words, Message) and told.on == day
    return told.words.key, told.gain


def test_before_the_plans_own_test_it_gains_and_after_it_decides_nothing() -> None:
    today = example("cabbage-plot").today
    key, gain = keys("cabbage-plot", today + timedelta(days=250))
    assert key == "worth-on-day" and gain is not None and 0.0 <= gain < 0.2
    assert keys("cabbage-plot", today + timedelta(days=400)) == ("worth-day-late", None)
    assert keys("sandy-patch", example("sandy-patch").today + timedelta(days=60)) == (
        "worth-day-late",
        None,
    ), "one application and no test: nothing is left to decide"
    assert keys("overdone-bed", example("overdone-bed").today + timedelta(days=9))[0] == (
        "worth-stop"
    )


def test_a_test_that_tells_nothing_gains_nothing_and_a_better_one_no_less(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    day, gains = example("cabbage-plot").today + timedelta(days=250), []
    for error_ph in (0.02, 0.2, 50.0):
        monkeypatch.setattr(on_day, "retest_error_ph", lambda _context, sd=error_ph: sd)
        gains.append(keys("cabbage-plot", day)[1])
    assert None not in gains and gains == sorted(gains, reverse=True)
    assert gains[0] > 0.001 > 1e-6 > gains[2]


@pytest.mark.parametrize("ahead", [0, -30])
def test_a_day_that_is_not_to_come_is_refused(ahead: int) -> None:
    case = example("cabbage-plot")
    with pytest.raises(WordedError):
        worth_on_day(case, case.today + timedelta(days=ahead))


def test_while_the_verdict_waits_for_a_fact_no_other_test_is_weighed() -> None:
    case = parse_case(
        'case = 1\nname = "b"\ntoday = 2026-03-20\n[place]\nname = "Leeds"\n[bed]\narea = 24\n'
        '[soil]\nph = 7.1\nph_method = "water 1:2.5"\ntexture = "sandy loam"\n'
        'organic_matter_pct = 4\nsampled = 2026-03-12\n[aim]\nplant = "rhododendron"\n'
        '[water]\nweekly = "15 mm"\nalkalinity = "90 mg/L CaCO3"\n'
    )
    told = worth_on_day(case, case.today + timedelta(days=90), members=60)
    assert told.gain is None and isinstance(told.words, Message)
    assert told.words.key == "worth-first"
