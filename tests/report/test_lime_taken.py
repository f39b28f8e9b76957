"""The letter says once which lime an amount is reckoned with, near the amount."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from loamshift.case.read import parse_case
from loamshift.domain.message import Measure, amount, rate
from loamshift.report.letter import letter_from_answer
from loamshift.report.lime_taken import lime_taken
from loamshift.report.terminal import letter_text
from loamshift.report.words import Words
from loamshift.services.advise import advise

CASE = """
case = 1
name = "Sour plot"
today = 2026-10-18
{place}
[bed]
area = "24 m2"
depth = "20 cm"
planted = false
[soil]
ph = 5.4
ph_method = "water 1:2.5"
texture = "sandy loam"
organic_matter_pct = 4.5
[aim]
plant = "cabbage"
{more}
"""
PLACE = '[place]\nname = "{}"'
ON_HAND = '[[on_hand]]\nmaterial = "{}"\n'


def letter(place: str = "Manchester", more: str = "", *, ph: float = 5.4) -> str:
    text = CASE.format(place=PLACE.format(place) if place else "", more=more)
    case = parse_case(text.replace("ph = 5.4", f"ph = {ph}"))
    text = letter_text(
        letter_from_answer(advise(case), case, words=Words("uk", "metric")), width=2000
    )
    return " ".join(text.split())


@pytest.mark.parametrize(
    ("place", "said"),
    [
        ("Manchester", "British legal fineness, with 40% below 0.15 mm"),
        ("Dublin", "Irish legal fineness, with 35% below 0.15 mm"),
        ("Minneapolis", "American pulverised grade, with 60% below 0.15 mm"),
        ("", "half British and half American grade, with 50% below 0.15 mm"),
    ],
)
def test_the_grade_stands_once_beside_the_amount(place: str, said: str) -> None:
    text = letter(place)
    assert text.count("We take it as") == text.count(said) == 1
    assert text.count("a finer lime works sooner") == 1
    before = text[: text.index("We take it as")]
    assert "We suggest starting with" in before[-250:]


def test_a_lime_of_a_known_grade_is_not_explained() -> None:
    for name in ("British ground limestone", "hydrated lime", "pelletised lime"):
        assert "We take it as" not in letter(more=ON_HAND.format(name))
    known = parse_case(CASE.format(place="", more=ON_HAND.format("ground limestone")))
    assert lime_taken("elemental sulfur, powder", known) == []


def test_garden_lime_is_told_as_unknown_with_its_range_and_its_question() -> None:
    text = letter(more=ON_HAND.format("garden lime"))
    counted = "so we count 60% of it, in a range of 35 to 95%"
    assert text.count(counted) == 1
    assert text.count("Which lime is it?") == 2  # once in front, once with its reason
    assert "garden lime of unknown grade" in text
    start = text[text.index("We suggest starting with") :]
    assert "More than the need" not in start[:600] and "The first application is smaller" in start


def test_a_letter_on_a_bed_limed_with_unknown_lime_says_one_thing() -> None:
    """The range in the question is the range that the amount, the forecast and the working use."""
    applied = (
        '[[applied]]\ndate = 2026-04-10\nmaterial = "garden lime"\nrate = "200 g/m2"\n'
        'incorporated = "20 cm"\n'
    )
    text = letter(more=applied)
    assert text.count("Which lime was it?") == 2  # once in front, once with its reason
    assert "We counted 60%, in a range of 35 to 95%" in text
    assert "burn skin and eyes" in text
    assert "nobody has told us" not in text.casefold()  # what is bought now is known


@pytest.mark.parametrize("make", [rate, amount])
def test_a_range_takes_the_unit_of_its_best_figure(make: Callable[..., Measure]) -> None:
    apart = Words("uk", "metric").measure(make(540.0, high=1050.0))
    told = Words("uk", "metric").measure(make(540.0, high=1050.0, best=680.0))
    assert "0.54 to 1.05 kg" in apart
    assert told.startswith("540 to 1,050 g")
    assert "0.95 to 1.6 kg" in Words("uk", "metric").measure(make(950.0, high=1600.0, best=1200.0))


def test_need_and_range_share_a_unit_in_a_letter() -> None:
    text = letter(ph=5.0).replace("²", "2")
    need = text[text.index("Our best estimate of the need") : text.index("Pure lime means")]
    assert (
        "to 1,3" in need and "kg/m2" not in need and need.count("g/m2") == 2
    )  # 1.35 kg would stand beside 630 g
