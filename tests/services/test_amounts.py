from __future__ import annotations

import re

import pytest

from loamshift.domain.answer import Answer, Finding, Severity
from loamshift.services.advise import advise
from services.beds import bed
from wording import read

SOIL = """ph = 6.4
sampled = 2026-03-20
ph_method = "water 1:1"
texture = "loam"
organic_matter_pct = 3
carbonate_pct = 0"""
PLANTED = 'area = "9 m2"\nplants = 9\nplanted = true'
TIMES = re.compile(r"(\d+(?:\.\d)?) times")


def proposed(material: str, how_much: str) -> str:
    return f'[[claim]]\nmaterial = "{material}"\n{how_much}\n'


def applied(day: str, material: str, rate: str) -> str:
    return f'[[applied]]\ndate = {day}\nmaterial = "{material}"\nrate = "{rate}"\n'


def rows(answer: Answer, check: str) -> list[Finding]:
    return [row for row in answer.findings if row.check.startswith(check)]


def codes(answer: Answer) -> set[str]:
    return {caution.code for caution in answer.cautions}


def test_a_cup_a_plant_is_a_block_with_its_figure_and_its_cautions() -> None:
    claim = proposed("flowers of sulphur", 'amount = "1 cup per plant"')
    answer = advise(bed(SOIL, bed=PLANTED, more=claim))
    (row,) = rows(answer, "amount proposed")
    assert not row.passed and row.severity is Severity.BLOCK
    assert "5.3 times" in read(row.comment)
    assert {"over-cap", "overdose", "unit-slip"} <= codes(answer)


def test_a_modest_amount_passes() -> None:
    claim = proposed("flowers of sulphur", 'rate = "30 g/m2"')
    answer = advise(bed(SOIL, bed=PLANTED, more=claim))
    (row,) = rows(answer, "amount proposed")
    assert row.passed
    assert "within the published yearly limit" in read(row.comment)
    assert not {"over-cap", "overdose", "unit-slip"} & codes(answer)


def test_what_has_no_printed_limit_is_not_judged_by_one() -> None:
    claim = proposed("coffee grounds", 'rate = "2 kg/m2"')
    answer = advise(bed(SOIL, more=claim))
    assert not rows(answer, "amount")


@pytest.mark.parametrize(
    ("material", "rate"),
    [
        ("aluminium sulfate, 18-hydrate", "1.5 kg/m2"),
        ("ferrous sulfate, heptahydrate", "1.5 kg/m2"),
        ("urea", "200 g/m2"),
        ("wood ash", "3 kg/m2"),
        ("ground limestone", "1.5 kg/m2"),
        ("sulfuric acid, 35 %", "1 kg/m2"),
    ],
)
def test_every_limited_substance_can_be_an_overdose(material: str, rate: str) -> None:
    lying = advise(bed(SOIL, bed=PLANTED, more=applied("2026-03-31", material, rate)))
    wanted = advise(bed(SOIL, bed=PLANTED, more=proposed(material, f'rate = "{rate}"')))
    for answer in (lying, wanted):
        assert {"over-cap", "overdose"} <= codes(answer)
    forbids = Severity.CAUTION if material == "urea" else Severity.BLOCK
    assert rows(lying, "applied within a year")[0].severity is forbids
    assert rows(wanted, "amount proposed")[0].severity is Severity.BLOCK


@pytest.mark.parametrize(
    ("material", "rate", "ground"),
    [
        ("elemental sulfur, powder", "250 g/m2", "planted = false"),
        ("elemental sulfur, powder", "120 g/m2", "planted = false"),
        ("elemental sulfur, powder", "36 g/m2", "planted = true"),
        ("elemental sulfur, pastilles", "90 g/m2", "planted = true"),
        ("aluminium sulfate, anhydrous", "400 g/m2", "planted = true"),
        ("wood ash", "2 kg/m2", "planted = true"),
        ("hydrated lime", "300 g/m2", "planted = true"),
        ("urea", "60 g/m2", 'kind = "lawn"'),
    ],
)
def test_the_check_and_the_answer_to_a_claim_tell_one_figure(
    material: str, rate: str, ground: str
) -> None:
    claim = proposed(material, f'rate = "{rate}"')
    answer = advise(bed(SOIL, bed=f'area = "9 m2"\n{ground}', more=claim))
    (row,) = rows(answer, "amount proposed")
    told, said = read(row.comment), read(answer.claims[0].comment)
    said = said[said.index(" the yearly limit") - 12 :] if "yearly limit" in said else said
    said = said[max(said.find(" the published limit") - 12, 0) :]
    assert TIMES.findall(told) == TIMES.findall(said)
    assert isinstance(row.value, float) and isinstance(row.limit, float)
    for times in TIMES.findall(told):
        assert float(times) == pytest.approx(row.value / row.limit, abs=0.06)


def test_a_proposal_is_added_to_what_was_put_on() -> None:
    sulfur = "elemental sulfur, powder"
    more = applied("2026-03-01", sulfur, "30 g/m2")
    answer = advise(bed(SOIL, bed=PLANTED, more=more + proposed(sulfur, 'rate = "30 g/m2"')))
    (row,) = rows(answer, "amount proposed")
    assert not row.passed and row.severity is Severity.CAUTION
    assert "within the limit by itself" in read(row.comment) and "1.7 times" in read(row.comment)
    assert row.value == pytest.approx(59.4) and row.limit == pytest.approx(34.2)
    more = applied("2026-03-01", "wood ash", "500 g/m2")
    answer = advise(bed(SOIL, bed=PLANTED, more=more + proposed(sulfur, 'rate = "30 g/m2"')))
    (row,) = rows(answer, "amount proposed")
    assert row.passed and row.severity is Severity.INFO


def test_a_proposal_is_added_to_everything_that_acidifies() -> None:
    sulfur = "elemental sulfur, powder"
    more = applied("2026-03-01", sulfur, "10 g/m2")
    more += applied("2026-03-01", "aluminium sulfate, 18-hydrate", "100 g/m2")
    answer = advise(bed(SOIL, bed=PLANTED, more=more + proposed(sulfur, 'rate = "20 g/m2"')))
    (row,) = rows(answer, "amount proposed")
    shares = 30.0 * 0.99 / 34.18 + 100.0 / 244.12
    assert row.value == pytest.approx(shares * 34.18, abs=0.1)
    assert TIMES.findall(read(row.comment)) == [f"{shares:.1f}"]


def test_a_dose_too_large_at_once_may_be_within_the_year() -> None:
    sulfur = "elemental sulfur, pastilles"
    more = applied("2026-01-01", sulfur, "40 g/m2") + proposed(sulfur, 'rate = "120 g/m2"')
    (row,) = rows(advise(bed(SOIL, more=more)), "amount proposed")
    assert read(row.comment) == (
        "The amount proposed is 110 g/m² of pure sulphur from sulphur pastilles. That is 1.1 times "
        "the published limit for one application on bare ground, 98 g/m²."
    )


def test_a_proposal_over_its_limit_tells_the_sum_too() -> None:
    sulfur = "elemental sulfur, powder"
    more = applied("2026-03-01", sulfur, "30 g/m2") + proposed(sulfur, 'rate = "60 g/m2"')
    (row,) = rows(advise(bed(SOIL, bed=PLANTED, more=more)), "amount proposed")
    assert row.severity is Severity.BLOCK
    assert TIMES.findall(read(row.comment)) == ["1.7", "2.6"]
