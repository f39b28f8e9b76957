"""Doubts about readings: each is a sentence, and the nearest good case has none."""

from __future__ import annotations

from datetime import timedelta

import pytest

from loamshift.domain.answer import Finding, Severity
from loamshift.domain.case import Case
from loamshift.services.cautions.checks import findings
from loamshift.services.cautions.reading_checks import (
    AGREEMENT,
    HALF_SEEN,
    NO_DATE,
    NOT_SEEN,
    REPEATED,
    ROUGH_FIRST,
    ROUGH_ONLY,
    TOO_OLD,
    reading_findings,
)
from loamshift.services.context.build_context import build_context
from services.beds import TODAY, bed
from wording import read

LOAM = 'texture = "loam"\norganic_matter_pct = 3'
REPORT = 'ph = {}\nph_method = "{}"\nsampled = {}\n' + LOAM
WATER = "water 1:1"


def report(ph: float, sampled: str, method: str = WATER) -> str:
    return REPORT.format(ph, method, sampled)


def reading(on: str, ph: float, method: str = WATER, more: str = "") -> str:
    return f'[[reading]]\ndate = {on}\nph = {ph}\nph_method = "{method}"\n{more}\n'


def sulfur(on: str, rate: float = 60, form: str = "flowers of sulphur") -> str:
    return f'[[applied]]\ndate = {on}\nmaterial = "{form}"\nrate = "{rate} g/m2"\n'


def rows(case: Case) -> dict[str, Finding]:
    return {row.check: row for row in reading_findings(build_context(case))}


def test_one_good_reading_is_not_doubted() -> None:
    assert rows(bed(report(6.4, "2026-03-20"))) == {}


@pytest.mark.parametrize(
    ("ph", "agrees"),
    # 2 sd of two water 1:1 readings, each with the scatter of its season: the row's own limit
    [(6.4, True), (6.8, True), (7.2, False)],
)
def test_readings_of_one_season_contradict_each_other_or_not(ph: float, agrees: bool) -> None:
    row = rows(bed(report(6.4, "2026-03-20"), more=reading("2026-02-20", ph)))[AGREEMENT]
    assert row.passed is agrees
    assert isinstance(row.value, float) and isinstance(row.limit, float)
    assert (row.value <= row.limit) is agrees
    assert row.value == pytest.approx(ph - 6.4)
    if not agrees:
        assert row.severity is Severity.CAUTION
        for part in ("pH 6.4", "pH 7.2", "20 March 2026", "20 February 2026", "nother sample"):
            assert part in read(row.comment)


def test_a_rough_reading_has_to_be_farther_off_to_contradict() -> None:
    for method, agrees in ((WATER, False), ("probe", True)):
        case = bed(report(6.4, "2026-03-20"), more=reading("2026-03-01", 7.2, method))
        assert rows(case)[AGREEMENT].passed is agrees


def test_what_was_applied_in_between_is_no_contradiction() -> None:
    readings = reading("2026-02-20", 7.4)
    limed = '[[applied]]\ndate = 2026-03-01\nmaterial = "hydrated lime"\nrate = "100 g/m2"\n'
    assert not rows(bed(report(6.4, "2026-03-20"), more=readings))[AGREEMENT].passed
    assert AGREEMENT not in rows(bed(report(6.4, "2026-03-20"), more=readings + limed))


def test_a_jump_from_one_year_to_the_next_asks_what_was_applied() -> None:
    case = bed(report(6.0, "2026-03-20"), more=reading("2025-03-01", 7.4))
    row = rows(case)[AGREEMENT]
    assert not row.passed
    assert "nothing applied in between" in read(row.comment)
    with_sulfur = bed(
        report(6.0, "2026-03-20"), more=reading("2025-03-01", 7.4) + sulfur("2025-04-01")
    )
    assert AGREEMENT not in rows(with_sulfur)


def test_different_depths_are_named_beside_a_contradiction() -> None:
    soil = report(6.0, "2026-03-20") + '\nsample_depth = "20 cm"'
    for depth, is_named in (("5 cm", True), ("20 cm", False)):
        more = reading("2026-03-01", 7.4, more=f'depth = "{depth}"')
        comment = read(rows(bed(soil, more=more))[AGREEMENT].comment)
        assert ("different depths" in comment) is is_named


def test_of_many_contradictions_the_worst_is_told_with_their_number() -> None:
    more = reading("2026-02-20", 7.4) + reading("2026-03-01", 7.3)
    found = reading_findings(build_context(bed(report(6.0, "2026-03-20"), more=more)))
    (row,) = [row for row in found if row.check == AGREEMENT]
    assert "pH 7.4" in read(row.comment)
    assert "worst of 2" in read(row.comment)


@pytest.mark.parametrize(("ph", "is_repeat"), [(6.4, True), (6.5, False)])
def test_a_reading_given_twice_is_said_and_counts_once(ph: float, is_repeat: bool) -> None:
    case = bed(report(6.4, "2026-03-20"), more=reading("2026-03-20", ph))
    assert (REPEATED in rows(case)) is is_repeat
    if is_repeat:
        assert "once" in read(rows(case)[REPEATED].comment)
        alone, twice = build_context(bed(report(6.4, "2026-03-20"))), build_context(case)
        assert alone.soil is not None and twice.soil is not None
        assert twice.soil.ph == alone.soil.ph


@pytest.mark.parametrize(("years", "is_told"), [(11.9, False), (12.2, True)])
def test_a_reading_older_than_twelve_years_is_named_as_not_used(
    years: float, is_told: bool
) -> None:
    day = (TODAY - timedelta(days=365.25 * years)).isoformat()
    case = bed(report(6.4, "2026-03-20"), more=reading(day, 7.0))
    assert (TOO_OLD in rows(case)) is is_told
    if is_told:
        assert "not used" in read(rows(case)[TOO_OLD].comment)


def test_only_old_readings_ask_for_a_new_sample() -> None:
    row = rows(bed(report(6.4, "2009-03-20")))[TOO_OLD]
    assert row.severity is Severity.CAUTION
    assert "new sample" in read(row.comment)
    assert build_context(bed(report(6.4, "2009-03-20"))).soil is None


def test_a_report_without_a_date_beside_dated_ones_is_taken_as_of_today() -> None:
    undated = 'ph = 6.4\nph_method = "water 1:1"\n' + LOAM
    told = rows(bed(undated, more=reading("2025-09-01", 6.6)))[NO_DATE]
    assert "12 April 2026" in read(told.comment)
    assert "date of the sample" in read(told.comment)
    limed = rows(bed(undated, more=sulfur("2025-09-01")))[NO_DATE]
    assert "dated applications" in read(limed.comment)
    assert NO_DATE not in rows(bed(undated))
    assert NO_DATE not in rows(bed(report(6.4, "2026-03-20"), more=reading("2025-09-01", 6.6)))


def test_an_undated_sample_is_not_called_recent() -> None:
    undated = 'ph = 6.4\nph_method = "water 1:1"\n' + LOAM
    name = "age of the sample"
    assert name not in {row.check for row in findings(build_context(bed(undated)))}
    dated = bed(report(6.4, TODAY.isoformat()))
    assert name in {row.check for row in findings(build_context(dated))}


def test_several_rough_readings_do_not_make_a_laboratory() -> None:
    rough = bed(report(6.4, "2026-03-20", "probe"), more=reading("2026-02-01", 6.6, "strip"))
    assert "two readings" in read(rows(rough)[ROUGH_ONLY].comment)
    one = bed(report(6.4, "2026-03-20", "probe"))
    assert ROUGH_ONLY not in rows(one)
    mixed = bed(report(6.4, "2026-03-20"), more=reading("2026-02-01", 6.6, "strip"))
    assert ROUGH_ONLY not in rows(mixed)


def test_a_probe_before_the_first_laboratory_test_is_named_as_not_used() -> None:
    old = bed(report(6.4, "2026-03-20"), more=reading("2024-06-01", 7.3, "probe"))
    assert "pH 7.3 (soil probe) on 1 June 2024" in read(rows(old)[ROUGH_FIRST].comment)
    later = bed(report(6.4, "2024-03-20"), more=reading("2025-06-01", 7.3, "probe"))
    assert ROUGH_FIRST not in rows(later)


def test_readings_before_every_application_do_not_judge_it() -> None:
    before = bed(report(7.0, "2025-03-20"), more=sulfur("2025-04-20"))
    row = rows(before)[NOT_SEEN]
    assert row.severity is Severity.CAUTION
    assert "20 March 2025" in read(row.comment) and "20 April 2025" in read(row.comment)
    after = bed(report(7.0, "2026-03-20"), more=sulfur("2024-04-20"))
    assert NOT_SEEN not in rows(after)
    same_day = bed(report(7.0, "2025-04-20"), more=sulfur("2025-04-20"))
    assert NOT_SEEN in rows(same_day)


def test_a_reading_soon_after_an_application_does_not_show_it_whole() -> None:
    soon = bed(
        report(7.0, "2026-04-01"), more=sulfur("2026-03-01", form="elemental sulfur, prills")
    )
    assert "had reacted" in read(rows(soon)[HALF_SEEN].comment)
    late = bed(report(7.0, "2026-04-01"), more=sulfur("2021-03-01"))
    assert HALF_SEEN not in rows(late)


def test_no_reading_at_all_raises_nothing() -> None:
    assert rows(bed(LOAM, more=sulfur("2026-03-01"))) == {}


def test_every_sentence_ends_and_names_no_number_silently() -> None:
    case = bed(
        'ph = 6.4\nph_method = "water 1:1"\n' + LOAM,
        more=reading("2026-02-20", 7.4) + reading("2026-02-20", 7.4) + reading("2010-01-01", 5)
        + sulfur("2026-04-12"),
    )  # fmt: skip
    found = reading_findings(build_context(case))
    assert {row.check for row in found} == {AGREEMENT, REPEATED, TOO_OLD, NO_DATE, NOT_SEEN}
    assert all(read(row.comment).endswith(".") for row in found)
    assert all(row.value is not None for row in found)
