"""A pot has a mix: its letter speaks of no bed, no ground and no soil."""

from __future__ import annotations

import re
from typing import Final

import pytest

from loamshift.report.layout import letter_lines, plain_text
from loamshift.report.letter import letter_from_answer
from loamshift.report.letter_words import sentence
from loamshift.report.words import Words
from loamshift.services.advise import LookAhead, advise
from loamshift.services.own_sum.margin import margin_sums
from loamshift.services.rescue.ask import whom_to_ask
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


PUT_ON: Final = '[[applied]]\ndate = 2026-04-10\nmaterial = "{}"\namount = "{}"'
STOPPED: Final = {
    "too acid": (MIX.format(4.6, "peat mix"), PUT_ON.format("elemental sulfur, powder", "90 g")),
    "spilled": (MIX.format(4.6, "peat mix"), PUT_ON.format("sulfuric acid, 93 %", "90 g")),
    "limed": (MIX.format(6.4, "peat mix"), PUT_ON.format("hydrated lime", "200 g")),
    "salty": (MIX.format(5.0, "peat mix") + '\nec_ds_m = 9\nec_method = "paste"', ""),
    "sodic": (MIX.format(5.0, "peat mix") + "\nsodium_pct = 30", ""),
    "unread": ('medium = "peat mix"', PUT_ON.format("elemental sulfur, powder", "90 g")),
    "out of reach": (MIX.format(7.4, "peat mix"), ""),
    "wet": (MIX.format(6.5, "peat mix"), ""),
}


@pytest.mark.parametrize("spelling", ["uk", "us"])
@pytest.mark.parametrize("name", STOPPED)
def test_a_rescue_of_pots_speaks_of_the_mix(name: str, spelling: str) -> None:
    soil, more = STOPPED[name]
    tub = TUB.format("true") + ('\ndrainage = "waterlogged"' if name == "wet" else "")
    case = bed(soil, bed=tub, aim='plant = "highbush blueberry"', more=more)
    answer = advise(case)
    assert answer.rescue is not None
    words = Words(spelling=spelling).on("container")
    lines = (answer.rescue.problem, *answer.rescue.steps, *answer.rescue.never)
    told = [sentence(line, words) for line in lines]
    of_a_bed = r"\b(?:beds?|soils?|ground)\b(?! (?:improvers|amendments))"
    assert [line for line in told if re.search(of_a_bed, line)] == []
    asked = {line.key for line in whom_to_ask(answer, case)}
    assert "rescue-ask-acid-sulfate" not in asked


def test_of_ground_that_is_very_acid_a_specialist_is_asked() -> None:
    soil = 'ph = 3.4\nph_method = "water 1:1"\ntexture = "clay"\nsampled = 2026-04-01'
    case = bed(soil, bed='area = "20 m2"\nplanted = true')
    asked = {line.key for line in whom_to_ask(advise(case), case)}
    assert "rescue-ask-acid-sulfate" in asked
