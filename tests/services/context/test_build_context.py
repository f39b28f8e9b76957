from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from loamshift.domain.soil import Medium
from loamshift.services.cautions.checks import findings
from loamshift.services.context.build_context import build_context, require_soil
from loamshift.services.context.need import need_mmolc_kg, ph_after_acid_m2
from loamshift.services.context.readings import current_reading
from services.beds import bed
from wording import read

LOAM = 'ph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\n'
FED = '[feed]\nn_g_m2_year = 7\nform = "ammonium"'


def test_a_salt_reading_is_taken_up_to_water() -> None:
    soil = require_soil(build_context(bed('ph = 5.0\nph_method = "CaCl2"\ntexture = "loam"')))
    assert soil.ph.ph_water == pytest.approx(5.6)
    assert soil.ph.ph_water_sd > 0.2


def test_a_target_in_salt_is_taken_up_too() -> None:
    aim = 'target_ph = 5.5\ntarget_method = "CaCl2"'
    target = build_context(bed("ph = 5.0\n" + LOAM, aim=aim)).target
    assert target is not None and target.ph_aim == pytest.approx(6.1)


def test_a_probe_gives_way_to_a_laboratory() -> None:
    soil = 'ph = 7.4\nph_method = "probe"\ntexture = "loam"\n'
    other = '[[soil.other_ph]]\nph = 6.2\nph_method = "water 1:1"'
    case = bed(soil + other)
    reading = current_reading(case)
    assert reading is not None and reading.ph == 6.2


@pytest.mark.parametrize(("sampled", "ph"), [("sampled = 2025-03-20\n", 6.1), ("", 7.0)])
def test_the_latest_reading_speaks_and_one_without_a_day_is_todays(sampled: str, ph: float) -> None:
    dated = '[[reading]]\ndate = 2026-04-01\nph = 6.1\nph_method = "water 1:1"'
    reading = current_reading(bed("ph = 7.0\n" + sampled + LOAM, more=dated))
    assert reading is not None and reading.ph == ph


def test_what_was_not_said_is_named() -> None:
    context = build_context(bed("ph = 6.5"))
    assert {"soil.texture", "soil.organic_matter_pct", "bed.depth"} <= set(context.assumed)


def test_laboratory_figures_narrow_the_scale() -> None:
    feel = require_soil(build_context(bed("ph = 6.5\n" + LOAM)))
    lab = require_soil(
        build_context(
            bed(
                'ph = 6.5\nph_method = "water 1:1"\nsand_pct = 40\n'
                "silt_pct = 40\nclay_pct = 20\norganic_carbon_pct = 1.7"
            )
        )
    )
    assert lab.k.log10_k_sd < feel.k.log10_k_sd


def test_a_jar_series_sets_the_scale() -> None:
    jars = "\n".join(
        f"[[titration]]\nacid_mmolc_kg = {acid}\nph = {ph}"
        for acid, ph in ((0, 7.0), (20, 6.5), (40, 6.0), (60, 5.5))
    )
    soil = require_soil(build_context(bed("ph = 7.0\n" + LOAM, more=jars)))
    assert soil.k.log10_k_mean > 0.1 and soil.k.log10_k_sd < 0.15
    assert soil.k.contributions


def test_a_peat_mix_uses_the_organic_term_alone() -> None:
    context = build_context(
        bed(
            'ph = 5.5\nph_method = "water 1:5"\nmedium = "peat mix"',
            bed='kind = "container"\narea = "0.1 m2"',
        )
    )
    assert require_soil(context).medium is Medium.PEAT_MIX
    assert context.organic_only and context.in_pot


def test_need_and_curve_agree() -> None:
    context = build_context(bed("ph = 6.5\ncarbonate_pct = 0\n" + LOAM))
    exact = replace(require_soil(context).ph, ph_water_sd=1e-6)
    context = replace(context, soil=replace(require_soil(context), ph=exact))
    acid = need_mmolc_kg(context, 5.0).quantile(0.5) * context.soil_mass_kg_m2
    assert ph_after_acid_m2(context, acid) == pytest.approx(5.0, abs=1e-4)


def test_sulfur_before_the_sample_has_partly_acted() -> None:
    soil = "ph = 6.5\nsampled = 2026-04-01\n" + LOAM
    applied = (
        '[[applied]]\ndate = {}\nmaterial = "flowers of sulphur"\nrate = "50 g/m2"\n'
        'incorporated = "15 cm"\n'
    )
    old = build_context(bed(soil, more=applied.format(date(2025, 4, 15)))).pending[0]
    new = build_context(bed(soil, more=applied.format(date(2026, 4, 5)))).pending[0]
    assert 0.0 <= old.acid_mmolc_m2 < 0.3 * old.total_mmolc_m2
    assert new.acid_mmolc_m2 == new.total_mmolc_m2


def test_water_of_a_ground_bed_is_none_unless_told() -> None:
    assert build_context(bed("ph = 6.5\n" + LOAM)).water_base_mmolc_m2_year == 0.0
    told = '[water]\nalkalinity = "200 mg/L CaCO3"\nweekly = "20 mm"'
    base = build_context(bed("ph = 6.5\n" + LOAM, more=told)).water_base_mmolc_m2_year
    assert base == pytest.approx(4.0 * 20 * 5 * 4.348, rel=0.01)


def test_a_target_in_the_printed_range_keeps_the_range_and_the_name() -> None:
    aim = 'plant = "cabbage"\ntarget_ph = 6.5'
    target = build_context(bed("ph = 5.4\n" + LOAM, aim=aim)).target
    assert target is not None and target.names == ("cabbage",)
    assert (target.ph_low, target.ph_aim, target.ph_high) == (6.0, 6.5, 7.25)


def test_a_target_outside_the_printed_range_is_not_called_the_plants() -> None:
    case = bed("ph = 5.2\n" + LOAM, aim='plant = "cabbage"\ntarget_ph = 5.5')
    target = build_context(case).target
    assert target is not None and target.names == ()
    assert (target.ph_low, target.ph_high) == (5.25, 5.75)
    row = next(row for row in findings(build_context(case)) if row.check.startswith("target pH"))
    assert not row.passed and "6.0 to 7.2" in read(row.comment)


REPORT = 'ph = 6.0\nph_method = "water 1:1"\nsampled = {}\ntexture = "loam"'
DATED = '[[reading]]\ndate = {}\nph = {}\nph_method = "{}"\n'


@pytest.mark.parametrize(
    ("sampled", "taken", "method", "ph"),
    [
        ("2026-03-20", "2025-06-01", "water 1:1", 6.0),
        ("2025-03-20", "2025-06-01", "water 1:1", 7.1),
        ("2025-03-20", "2025-06-01", "strip", 6.0),
    ],
)
def test_the_newer_of_report_and_reading_counts(
    sampled: str, taken: str, method: str, ph: float
) -> None:
    reading = current_reading(bed(REPORT.format(sampled), more=DATED.format(taken, 7.1, method)))
    assert reading is not None
    assert reading.ph == ph


@pytest.mark.parametrize(("ph", "agrees"), [(6.2, True), (7.4, False)])
def test_readings_that_disagree_are_told(ph: float, agrees: bool) -> None:
    case = bed(REPORT.format("2026-03-20"), more=DATED.format("2025-06-01", ph, "water 1:1"))
    found = {row.check: row for row in findings(build_context(case))}["two readings of one soil"]
    assert found.passed is agrees
    assert agrees or "take another sample" in read(found.comment).casefold()


@pytest.mark.parametrize(
    ("kind", "planted", "feed", "use"),
    [
        ("ground", "", "", "garden"),
        ("raised", "", FED, "low crop"),
        ("ground", "planted = false", FED, "unfed"),
        ("lawn", "", FED, "lawn"),
        ("field", "", "", "unknown"),
    ],
)
def test_the_yearly_load_goes_by_what_is_known_of_the_bed(
    kind: str, planted: str, feed: str, use: str
) -> None:
    text = f'kind = "{kind}"\n{planted}'
    context = build_context(bed("ph = 6.5\n" + LOAM, aim="target_ph = 6.5", bed=text, more=feed))
    assert context.land_use == use
