"""Sentences of the verdict: every reason has some, and their figures are the judgement's."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date

import pytest

from loamshift.domain.answer import Decision, Reason, Verdict
from loamshift.domain.case import Case
from loamshift.domain.message import Product, Prose, message, rate
from loamshift.services.advise import advise
from loamshift.services.context.build_context import build_context
from loamshift.services.plan.plan import plan_of
from loamshift.services.verdict import words
from loamshift.services.verdict.decide import decide
from loamshift.services.verdict.judgement import Judgement
from loamshift.services.verdict.moved_since import moved_since
from loamshift.services.verdict.words import verdict
from services.beds import bed
from wording import read

LOAM = 'ph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\n'
NO_LIME = LOAM + "carbonate_pct = 0\n"
FLOWERS = '[[applied]]\ndate = 2026-04-01\nmaterial = "flowers of sulphur"\n'


def told(case: Case) -> tuple[Judgement, Verdict]:
    context = build_context(case)
    judged = decide(context).judged
    return judged, verdict(context, judged, plan_of(context, judged).rule)


def test_every_reason_has_its_sentences() -> None:
    assert set(words._TOLD) == set(Reason)


def test_every_test_that_may_be_asked_for_is_named() -> None:
    asked = {judged.measure for judged, _ in (told(case) for case in OPEN_CASES)}
    assert None not in asked and asked <= set(words.SETTLED_BY)


OPEN_CASES = (
    bed('texture = "loam"'),
    bed(aim=""),
    bed("ph = 7.7\n" + LOAM),
    bed("ph = 6.2\n" + NO_LIME, more='[water]\nweekly = "25 mm"'),
    bed("ph = 7.0\n" + NO_LIME, aim='plant = "pin oak"'),
    bed('ph = 5.6\nph_method = "probe"\ntexture = "loam"\norganic_matter_pct = 3\n'),
)


def test_where_no_figure_for_free_lime_would_help_none_is_asked_for() -> None:
    """The soil alone, without its lime, asks for several times what the limits allow."""
    chalk = "ph = 7.9\nph_method = 'water 1:1'\ntexture = 'silty clay loam'\nfizz = 'strong'"
    answer = advise(bed(chalk))
    assert answer.verdict.reason is Reason.FREE_LIME
    assert read(answer.verdict.would_change_if) == "Nothing that a test is likely to show."
    assert answer.missing == ()


def test_what_would_settle_it_stands_under_its_label() -> None:
    said = advise(bed("ph = 7.8\nph_method = 'water 1:1'\ntexture = 'loam'")).verdict
    assert said.decision is Decision.MEASURE_FIRST
    assert said.would_change_if == message("settle-soil-fizz")


@pytest.mark.parametrize(("amount", "inside"), [("2 kg", True), ("300 g", False)])
def test_what_gets_near_the_range_by_itself_is_not_said_to_be_within(
    amount: str, inside: bool
) -> None:
    judged, said = told(bed("ph = 6.0\n" + NO_LIME, more=FLOWERS + f'amount = "{amount}"'))
    assert judged.reason is Reason.AT_WORK
    ends = float(re.findall(r"about pH (\d\.\d)", read(said.because))[0])
    assert (4.5 <= ends <= 5.5) is inside
    assert ("That is within" in read(said.because)) is inside


def test_the_first_amount_and_the_day_of_the_test_are_those_of_the_plan() -> None:
    answer = advise(bed("ph = 7.0\n" + NO_LIME))
    assert answer.plan is not None
    first = sum(part.rate_g_m2 for part in answer.plan.parts)
    assert isinstance(answer.verdict.because, Prose)
    said = {one.key: one.values for one in answer.verdict.because.sentences}
    assert said["verdict-start"]["rate"] == rate(first)
    assert said["verdict-start"]["product"] == Product(answer.plan.material)
    assert said["verdict-start-test"]["day"] == answer.plan.decides[0].test


POTS = 'kind = "container"\narea = "0.13 m2"\ndepth = "{depth} cm"\ncount = 6\nplanted = true'
HARD = '[water]\nalkalinity = "280 mg/L CaCO3"\nweekly = "3 L"'


@pytest.mark.parametrize(
    ("depth", "enough"),
    [(20, "That would be enough if your water did not undo it."), (30, "")],
)
def test_what_the_water_takes_back_is_not_told_as_out_of_reach(depth: int, enough: str) -> None:
    peat = 'ph = 5.9\nph_method = "water 1:5"\nmedium = "peat mix"'
    judged, said = told(bed(peat, bed=POTS.format(depth=depth), more=HARD))
    assert (judged.decision, judged.reason) == (Decision.ELSEWHERE, Reason.WATER)
    assert judged.need_mid_g_m2 is not None and judged.most_g_m2 is not None
    assert (judged.most_g_m2 >= judged.need_mid_g_m2) is bool(enough)
    text = read(said.because)
    assert enough in text
    assert "of 100 pots like this one" in text.lower() and "beds" not in text
    assert ("Your water keeps raising the pH again." in text) is not bool(enough)


TESTED = "sampled = 2026-03-01\n"


@pytest.mark.parametrize(
    ("material", "rate_g_m2", "aim", "says"),
    [
        ("ground limestone", 500, "target_ph = 5.8", "has raised it since"),
        ("elemental sulfur, powder", 60, "target_ph = 4.6", "has lowered it since"),
    ],
)
def test_what_has_moved_the_bed_since_its_test_is_said_first(
    material: str, rate_g_m2: float, aim: str, says: str
) -> None:
    put = (
        f'[[applied]]\ndate = 2026-03-10\nmaterial = "{material}"\nrate = "{rate_g_m2} g/m2"\n'
        'incorporated = "15 cm"'
    )
    case = bed("ph = 6.4\n" + NO_LIME + TESTED, aim=aim, more=put)
    context = build_context(replace(case, today=date(2026, 11, 12)))
    judged = decide(context).judged
    text = read(verdict(context, judged, plan_of(context, judged).rule).because)
    assert says in text and "applied on 10 March 2026" in text
    assert text.index(says) < text.index("now")
    assert "from pH 6.4" not in text


def test_no_application_is_blamed_for_what_it_cannot_have_done() -> None:
    put = (
        '[[applied]]\ndate = 2026-03-10\nmaterial = "ground limestone"\nrate = "2 g/m2"\n'
        'incorporated = "15 cm"'
    )
    context = build_context(bed("ph = 6.4\n" + NO_LIME + TESTED, more=put))
    assert moved_since(context, 7.4) is None
    assert moved_since(context, 6.0) is None


def test_what_went_on_before_the_test_has_not_moved_the_bed_since() -> None:
    put = (
        '[[applied]]\ndate = 2025-04-05\nmaterial = "elemental sulfur, powder"\n'
        'rate = "95 g/m2"\nincorporated = "15 cm"'
    )
    context = build_context(bed("ph = 6.4\n" + NO_LIME + TESTED, more=put))
    assert moved_since(context, 6.3) is None
