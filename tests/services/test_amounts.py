from __future__ import annotations

from loamshift.domain.answer import Severity
from loamshift.services.advise import advise
from services.beds import bed

SOIL = """ph = 6.4
sampled = 2026-03-20
ph_method = "water 1:1"
texture = "loam"
organic_matter_pct = 3
carbonate_pct = 0"""
PLANTED = 'area = "9 m2"\nplants = 9\nplanted = true'


def test_a_cup_a_plant_is_a_block_with_its_figure_and_its_cautions() -> None:
    claim = '[[claim]]\nmaterial = "flowers of sulphur"\namount = "1 cup per plant"'
    answer = advise(bed(SOIL, bed=PLANTED, more=claim))
    row = next(row for row in answer.findings if row.check.startswith("amount proposed"))
    assert not row.passed and row.severity is Severity.BLOCK
    assert "5.3 times" in row.comment
    codes = {caution.code for caution in answer.cautions}
    assert {"over-cap", "overdose", "unit-slip"} <= codes


def test_a_modest_amount_passes() -> None:
    claim = '[[claim]]\nmaterial = "flowers of sulphur"\nrate = "30 g/m2"'
    answer = advise(bed(SOIL, bed=PLANTED, more=claim))
    row = next(row for row in answer.findings if row.check.startswith("amount proposed"))
    assert row.passed
    assert not {"over-cap", "overdose"} & {caution.code for caution in answer.cautions}


def test_what_has_no_printed_limit_is_not_judged_by_one() -> None:
    claim = '[[claim]]\nmaterial = "coffee grounds"\nrate = "2 kg/m2"'
    answer = advise(bed(SOIL, more=claim))
    assert not any(row.check.startswith("amount") for row in answer.findings)
