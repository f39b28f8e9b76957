"""A plan is not given up half way: what its table promised, the letter after the test keeps."""

from __future__ import annotations

import pytest

from loamshift.domain.answer import Decision, Reason
from loamshift.services.context.build_context import build_context
from loamshift.services.verdict.decide import decide
from loamshift.services.verdict.judgement import Judgement
from services.beds import bed

SOIL = (
    'ph = {}\nph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\n'
    "carbonate_pct = 0\nsampled = {}\n"
)
FIRST = '[[reading]]\ndate = 2025-04-01\nph = 7.0\nph_method = "water 1:1"\n'
SULFUR = (
    '[[applied]]\ndate = {}\nmaterial = "elemental sulfur, powder"\nrate = "25 g/m2"\n'
    'incorporated = "15 cm"\n'
)
AIM = "target_ph = 6.0\nby = 2028-04-12"
DUG = 'area = "20 m2"\nplanted = false\nbefore = "arable"\nbefore_years = 20'
"""Dug arable ground: of ground whose past is not told, old organic matter rots and counts."""


def judged(ph: float, *, applied: str = "2025-04-12", first: str = FIRST) -> Judgement:
    soil, more = SOIL.format(ph, "2026-03-29"), first + SULFUR.format(applied)
    case = bed(soil, bed=DUG, aim=AIM, more=more)
    return decide(build_context(case)).judged


def test_a_gap_too_small_to_begin_with_gets_the_part_that_pays() -> None:
    found = judged(6.5)
    assert found.decision is Decision.GO and found.rule is not None
    assert found.rule.first_g_m2 > 0.0
    fresh = bed(SOIL.format(6.5, "2026-03-29"), bed=DUG, aim=AIM)
    assert decide(build_context(fresh)).judged.decision is Decision.LEAVE


@pytest.mark.parametrize("ph", [6.2, 6.0, 5.8])
def test_a_bed_that_has_arrived_gets_nothing_more(ph: float) -> None:
    found = judged(ph)
    assert found.decision is Decision.LEAVE and found.rule is None


def test_a_reading_too_soon_after_the_material_judges_nothing() -> None:
    found = judged(6.5, applied="2026-03-01")
    assert found.decision is Decision.LEAVE
    assert found.reason in (Reason.AT_WORK, Reason.SMALL_GAIN)


def test_what_went_on_years_ago_is_no_plan_under_way() -> None:
    assert judged(6.5, applied="2023-04-12", first="").decision is Decision.LEAVE
