from __future__ import annotations

import pytest

from loamshift.case.read import parse_case
from loamshift.domain.answer import Finding, Severity
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.services.cautions.medium_check import growing_medium
from loamshift.services.context.build_context import build_context, require_soil

POT = """
case = 1
today = 2026-04-12
[bed]
kind = "container"
[soil]
ph = 5.5
ph_method = "water 1:5"
medium = "{}"
[aim]
plant = "highbush blueberry"
"""
JARS = "\n".join(
    f"[[titration]]\nacid_mmolc_kg = {acid}\nph = {ph}" for acid, ph in ((0, 5.5), (60, 4.9))
)


def finding(medium: str, more: str = "") -> Finding | None:
    return growing_medium(build_context(parse_case(POT.format(medium) + more, source="pots")))


@pytest.mark.parametrize("word", ["peat free", "Peat-Free", "peat-free mix"])
def test_a_mix_without_peat_is_told_as_what_it_is_taken_for(word: str) -> None:
    found = finding(word)
    assert found is not None
    assert found.severity is Severity.INFO
    assert say(found.comment, Words()).startswith(
        "A peat-free mix is taken to resist a change of pH 0.9 times as strongly as a peat mix"
    )


def test_coir_resists_less_than_a_third_as_much_as_peat_by_volume() -> None:
    found = finding("coir")
    assert found is not None
    assert "0.3 times as strongly" in say(found.comment, Words())
    assert found.source_key == "evans-1996"


@pytest.mark.parametrize("word", ["mineral", "peat mix"])
def test_what_has_a_curve_is_not_told(word: str) -> None:
    assert finding(word) is None


def test_jars_of_the_mix_itself_say_it_instead() -> None:
    assert finding("coir mix", JARS) is None


def test_a_mix_without_peat_is_the_least_known() -> None:
    spread = {
        word: require_soil(build_context(parse_case(POT.format(word), source="pots"))).k.log10_k_sd
        for word in ("peat mix", "bark mix", "coir mix", "peat-free mix")
    }
    assert max(spread, key=lambda word: spread[word]) == "peat-free mix"
    assert min(spread, key=lambda word: spread[word]) == "peat mix"
