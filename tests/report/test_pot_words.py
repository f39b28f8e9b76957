"""A pot has a mix: its letter speaks of no bed, no ground and no soil."""

from __future__ import annotations

import re
from typing import Final

import pytest

from loamshift.report.layout import letter_lines, plain_text
from loamshift.report.letter import letter_from_answer
from loamshift.report.words import Words
from loamshift.services.advise import LookAhead, advise
from loamshift.services.own_sum.margin import margin_sums
from services.beds import bed

TUB: Final = 'kind = "container"\narea = "0.1 m2"\ndepth = "30 cm"\ncount = 2\nplanted = {}'
MIX: Final = 'ph = {}\nph_method = "water 1:5"\nmedium = "{}"\nsampled = 2026-04-01'
HARD: Final = "[water]\nalkalinity = {}\nweekly = {}\nmonths = [5, 6, 7, 8, 9]"
CASES: Final = {
    "go": ("false", MIX.format(6.6, "bark mix"), HARD.format(10, 2)),
    "effort": ("true", MIX.format(5.0, "peat mix"), HARD.format(250, 3)),
    "elsewhere": ("true", MIX.format(6.9, "peat mix"), HARD.format(280, 4)),
    "first": ("true", 'ph = 7.0\nph_method = "probe"\nmedium = "peat mix"', ""),
    "lime": ("true", MIX.format(3.4, "peat mix"), ""),
    "no aim": ("true", MIX.format(5.0, "peat mix"), ""),
}
OF_A_BED: Final = re.compile(
    r"(?:[Tt]his|[Tt]he|[Yy]our|these|such|of) (?:bed|soil|ground)s?\b(?! (?:report|laborator|bact"
    r"|temper|micro|pH|limestone|chalk|to |counted))"
)
GENERAL: Final = ("care", "rescue", "sources", "made-by", "claims")
"""Sections that speak of gardens at large, or of what others found."""


@pytest.mark.parametrize("name", CASES)
@pytest.mark.parametrize("forecast", [False, True])
def test_a_letter_about_pots_speaks_of_the_mix(name: str, forecast: bool) -> None:
    planted, soil, water = CASES[name]
    aim = "" if name == "no aim" else 'plant = "highbush blueberry"'
    case = bed(soil, bed=TUB.format(planted), aim=aim, more=water)
    answer = advise(case, look_ahead=LookAhead(members=30, years=2) if forecast else None)
    letter = letter_from_answer(answer, case, words=Words(), sums=margin_sums(case, answer))
    told = [section for section in letter.sections if section.topic not in GENERAL]
    text = plain_text(letter_lines(type(letter)(letter.title, "", tuple(told)), width=10_000))
    assert [text[max(0, m.start() - 60) : m.end() + 20] for m in OF_A_BED.finditer(text)] == []
