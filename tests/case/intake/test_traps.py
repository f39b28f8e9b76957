"""Every trap of laboratory reports has a file here, and what is asked or told about it.

The traps are those of the trade; the arithmetic in the comments is from formula masses. Rules
marked so are common practice without a source.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date

import pytest

from case.intake.made import csv_of, xlsx
from loamshift.case.intake.answers import checked_answers
from loamshift.case.intake.history import Earlier
from loamshift.case.intake.proposal import Finding, Proposal
from loamshift.case.intake.propose import answered, confirmed, propose
from loamshift.case.intake.sheets import read_sheets
from loamshift.case.mend import in_english

TODAY = date(2026, 11, 1)
HEAD = "Sample,pH (CaCl2),Date sampled,Depth"
ROW = "North,5.9,2026-03-04,0-15 cm"


def _proposed(*lines: str, answers: Mapping[str, str] | None = None) -> Proposal:
    told = checked_answers(answers or {}, source="a test")
    return propose(read_sheets(csv_of(*lines), "report.csv"), told, today=TODAY)


def _beside(headings: str, *cells: str, answers: Mapping[str, str] | None = None) -> Proposal:
    """A good report with more columns; every row of cells is another sample."""
    rows = [f"{ROW.replace('North', f'Bed {n}')},{one}" for n, one in enumerate(cells)]
    return _proposed(f"{HEAD},{headings}", *rows, answers=answers)


def _found(proposal: Proposal, code: str) -> Finding:
    found = [one for one in proposal.findings if one.code == code]
    assert len(found) == 1, [one.code for one in proposal.findings]
    said = in_english(found[0].said)
    assert said and said[-1] in ".?", said
    if found[0].question is not None:
        assert in_english(found[0].question).endswith("?")
    return found[0]


def _codes(proposal: Proposal) -> set[str]:
    return {one.code for one in proposal.findings}


def _values(proposal: Proposal, row: int = 0) -> Mapping[str, object]:
    return proposal.rows[row].values


def test_a_good_report_asks_nothing() -> None:
    proposal = _beside("OM %,CEC meq/100g,Bulk density g/cm3", "3.2,12,1.3", "2.8,14,1.2")
    assert not proposal.questions
    assert _codes(proposal) == {"om-method"}
    assert dict(_values(proposal)) == {
        "name": "Bed 0",
        "soil.ph": 5.9,
        "soil.ph_method": "CaCl2",
        "soil.organic_matter_pct": 3.2,
        "soil.cec_cmolc_kg": 12.0,
        "soil.bulk_density_g_cm3": 1.3,
        "soil.sampled": date(2026, 3, 4),
        "soil.sample_depth": "15 cm",
    }


@pytest.mark.parametrize(
    ("heading", "path", "value", "figure", "code"),
    [
        # 1 meq/100 g is 1 cmolc/kg, 10 mmolc/kg
        ("CEC me/100g", "soil.cec_cmolc_kg", "15", 15.0, None),
        ("CEC mmolc/kg", "soil.cec_cmolc_kg", "150", 15.0, None),
        ("Organic carbon g/kg", "soil.organic_carbon_pct", "18", 1.8, None),
        ("CaCO3 g kg-1", "soil.carbonate_pct", "52", 5.2, None),
        # Al: 26.98 g/mol over three charges, 89.95 mg/kg to 1 cmolc/kg
        ("Exchangeable Al mg/kg", "soil.exchangeable_al_cmolc_kg", "89.95", 1.0, None),
        ("EC 1:5 uS/cm", "soil.ec_ds_m", "250", 0.25, None),
        ("EC 1:5 (mS/m)", "soil.ec_ds_m", "25", 0.25, None),
        ("ECe mmho/cm", "soil.ec_ds_m", "2.5", 2.5, None),
        ("Bulk density kg/m3", "soil.bulk_density_g_cm3", "1250", 1.25, None),
        ("Lime test index", "soil.buffer_ph", "68", 6.8, "index-of-ten"),
        # 1 short ton per acre is 2.2417 t/ha
        ("Lime requirement ton/ac", "soil.lab_lime_requirement", "2", "448.34 g/m2", "lime-hidden"),
        ("Lime lb/1000 sq ft", "soil.lab_lime_requirement", "50", "244.121 g/m2", "lime-hidden"),
        # CaO 56.08, CaCO3 100.09: 1 t/ha CaO is 1.785 t/ha CaCO3
        ("Kalkbedarf dt CaO/ha", "soil.lab_lime_requirement", "10", "178.48 g/m2", "lime-as-cao"),
        # 61.017 mg/L HCO3 is 50.044 mg/L CaCO3
        ("Alkalinity mg/L HCO3", "water.alkalinity", "100", "82.02 mg/L CaCO3", None),
        ("Alkalinity meq/L", "water.alkalinity", "2", "100.088 mg/L CaCO3", None),
        ("Wasserhärte °dH", "water.hardness", "10", "178.48 mg/L CaCO3", "hardness"),
        ("Mg base saturation %", "soil.mg_saturation_pct", "12", 12.0, None),
        ("ESP %", "soil.sodium_pct", "2", 2.0, None),
    ],
)
def test_a_printed_unit_is_converted(
    heading: str, path: str, value: str, figure: object, code: str | None
) -> None:
    proposal = _beside(heading, value)
    assert _values(proposal)[path] == (
        pytest.approx(figure, rel=2e-4) if isinstance(figure, float) else figure
    )
    if code:
        _found(proposal, code)


@pytest.mark.parametrize(
    ("heading", "cells", "path", "likely"),
    [
        ("CEC", ("150", "180", "210"), "soil.cec_cmolc_kg", "mmolc/kg"),
        ("EC 1:5", ("250", "310", "190"), "soil.ec_ds_m", ""),
        ("Clay", ("175", "320", "511"), "soil.clay_pct", "g/kg"),
        ("CaCO3", ("12", "4", "7"), "soil.carbonate_pct", ""),
        ("Lime", ("2", "3", "1"), "soil.lab_lime_requirement", ""),
        ("Lime t/ac", ("2", "3", "1"), "soil.lab_lime_requirement", ""),
        ("Alkalinity mg/L", ("300", "250", "280"), "water.alkalinity", ""),
        ("CEC cmolc/dm3", ("12", "13", "14"), "soil.cec_cmolc_kg", ""),
    ],
)
def test_a_unit_that_is_not_certain_is_asked_and_nothing_enters(
    heading: str, cells: Sequence[str], path: str, likely: str
) -> None:
    proposal = _beside(heading, *cells)
    asked = [one for one in proposal.questions if one.key.endswith(": unit")]
    assert len(asked) == 1
    assert asked[0].choices
    assert (f"in {likely}, or" in in_english(asked[0].question or "")) is bool(likely)
    assert all(path not in row.values for row in proposal.rows)
    answer = likely or asked[0].choices[1]
    again = answered(proposal, {asked[0].key: answer}, today=TODAY)
    assert all(path in row.values for row in again.rows)
    assert not [one for one in again.questions if one.key == asked[0].key]


def test_a_printed_unit_that_the_figures_contradict_is_asked() -> None:
    proposal = _beside("CEC cmolc/kg", "150", "180")
    assert "mmolc/kg" in in_english(_found(proposal, "unit-doubtful").question or "")
    assert "soil.cec_cmolc_kg" not in _values(proposal)


@pytest.mark.parametrize(
    ("heading", "code"),
    [
        ("pH", "ph-method"),
        ("pH water", "ph-ratio"),
        ("Odczyn", "ph-method"),
        ("pH KCl / CaCl2", "methods-contradict"),
    ],
)
def test_a_ph_without_its_whole_method_is_asked(heading: str, code: str) -> None:
    proposal = _proposed(f"Sample,{heading}", "North,6.1")
    finding = _found(proposal, code)
    assert finding.key.endswith(": method")
    assert _values(proposal).get("soil.ph_method", "unknown") == "unknown"
    choice = "CaCl2" if code != "ph-ratio" else "water 1:2.5"
    again = answered(proposal, {finding.key: choice})
    assert _values(again)["soil.ph_method"] == choice


@pytest.mark.parametrize(
    ("heading", "method"),
    [
        ("pH (1:1 water)", "water 1:1"),
        ("1:1 Soil pH", "water 1:1"),
        ("pH eau 1:2,5", "water 1:2.5"),
        ("pHw 1:5", "water 1:5"),
        ("pH paste", "paste"),
        ("pHCa", "CaCl2"),
        ("pH in KCl", "KCl"),
        ("Salt pH", "CaCl2"),
        ("pH field", "probe"),
    ],
)
def test_a_printed_method_is_taken(heading: str, method: str) -> None:
    assert _values(_proposed(f'Sample,"{heading}"', "N,6.1"))["soil.ph_method"] == method


def test_two_methods_are_both_kept_and_water_comes_first() -> None:
    values = _values(_proposed("Sample,pH KCl,pH water 1:5", "North,4.8,5.6"))
    assert (values["soil.ph"], values["soil.ph_method"]) == (5.6, "water 1:5")
    assert (values["soil.other_ph[1].ph"], values["soil.other_ph[1].ph_method"]) == (4.8, "KCl")


def test_a_salt_ph_above_the_water_ph_is_asked_and_enters_only_when_kept() -> None:
    proposal = _proposed("Sample,pH KCl,pH water 1:5", "A,6.8,5.6", "B,4.8,5.6")
    finding = _found(proposal, "salt-above-water")
    assert [one.row for one in finding.places] == [2]
    assert "soil.ph" not in _values(proposal) and _values(proposal, 1)["soil.ph"] == 5.6
    assert _values(answered(proposal, {finding.key: "keep"}))["soil.ph"] == 5.6


def test_a_buffer_ph_headed_as_ph_is_asked() -> None:
    proposal = _proposed("Sample,pH,pH", "A,5.4,6.6", "B,5.9,6.7", "C,5.0,6.4")
    finding = _found(proposal, "buffer-as-ph")
    assert finding.key == "pH [C]: meaning"
    assert not confirmed(proposal)
    again = answered(proposal, {finding.key: "buffer_ph", "pH [B]: method": "water 1:1"})
    assert _values(again)["soil.buffer_ph"] == 6.6
    assert _values(again)["soil.ph"] == 5.4
    _found(again, "buffer-method")


def test_a_soil_ph_at_or_above_its_buffer_is_asked() -> None:
    proposal = _proposed("Sample,pH 1:1,Buffer pH Sikora", "A,6.9,6.6", "B,5.5,6.7")
    assert [one.row for one in _found(proposal, "ph-above-buffer").places] == [2]
    assert "soil.buffer_ph" not in _values(proposal)


def test_a_buffer_reading_in_limy_soil_is_told() -> None:
    proposal = _proposed("Sample,pH 1:1,Buffer pH Sikora", "A,7.4,7.6", "B,5.5,6.7")
    _found(proposal, "buffer-in-limy")


def test_a_ph_of_68_is_an_index_or_a_lost_decimal_sign() -> None:
    finding = _found(_proposed("Sample,pH", "A,68", "B,66"), "ph-times-ten")
    assert finding.choices[0] == "lime_test_index"


def test_swapped_columns_are_asked_and_not_entered() -> None:
    lines = ["Sample,pH 1:1,P ppm", *(f"B{n},{40 + n},{5.5 + n / 10}" for n in range(5))]
    proposal = _proposed(*[one.replace("4", "14", 1) for one in lines])
    finding = _found(proposal, "columns-swapped")
    assert "P ppm" in in_english(finding.said)
    assert not confirmed(proposal)


@pytest.mark.parametrize(
    ("headings", "cells", "code"),
    [
        ("Exchangeable acidity cmolc/kg,pH water 1:5", "0.5,7.6", "acidity-in-limy"),
        ("CaCO3 %", "4", "lime-in-acid"),
        ("Lime t/ha,pH water 1:5", "2,7.4", "lime-needless"),
        ("CEC meq/100g,Ca meq/100g,Mg meq/100g", "10,14,3", "cations-over-cec"),
        # 4000 mg/kg Ca are 20.0 cmolc/kg, 500 mg/kg K 1.28 (charge 1, not 2)
        ("CEC meq/100g,Ca ppm,Mg ppm,K ppm", "15,4000,120,500", "cations-over-cec"),
        ("Base saturation %", "128", "saturation-over-100"),
        ("OM %,OC %", "2,2", "om-equals-oc"),
        ("OM %,OC %", "9,2", "om-against-oc"),
        ("Sand %,Silt %,Clay %", "40,40,35", "texture-sum"),
    ],
)
def test_what_cannot_be_true_together_is_asked(headings: str, cells: str, code: str) -> None:
    proposal = _beside(headings, cells)
    finding = _found(proposal, code)
    assert [one.row for one in finding.places] == [2]


def test_no_lime_for_a_very_acid_soil_is_told() -> None:
    proposal = _proposed("Sample,pH 1:1,Lime t/ha", "A,4.6,0", "B,6,1")
    assert [one.row for one in _found(proposal, "lime-missing").places] == [2]


def test_a_lime_figure_far_from_ours_is_shown_beside_it() -> None:
    """A loam at pH 5.4: published tables ask for some tonnes, so that 30 t/ha are odd."""
    head = "Sample,pH 1:1,Clay %,OM %,Date sampled,Depth,Lime t/ha"
    rows = [f"{name},5.4,18,3,2026-03-04,0-15 cm,{lime}" for name, lime in (("A", 5), ("B", 30))]
    finding = _found(_proposed(head, *rows), "lime-far-apart")
    assert finding.places[0].row == 3
    said = in_english(finding.said)
    assert "3.0 kg/m²" in said, said


def test_potassium_has_one_charge() -> None:
    """391 mg/kg K, 200.4 Ca and 121.5 Mg are 1 cmolc/kg each: 3 in all, below a CEC of 3."""
    proposal = _beside("CEC meq/100g,Ca ppm,Mg ppm,K ppm", "3,200.4,121.5,391")
    assert "cations-over-cec" not in _codes(proposal)


@pytest.mark.parametrize(
    ("headings", "cells", "code"),
    [
        ("K2O mg/100g,P2O5 mg/100g,MgO mg/100g", "12,9,8", "oxides"),
        ("K Index", "2", "index-class"),
        ("K", "2-", "index-class"),
        ("P lb/ac", "40", "per-area"),
        ("K kg/ha", "180", "per-area"),
        ("Mg mg/dm3", "60", "per-volume"),
        ("Excess lime", "high", "excess-lime"),
        ("Calcaire actif %", "4", "active-limestone"),
        ("Target pH", "6.5", "target-ph"),
        ("Fizz", "slight", "fizz-acid"),
        ("Total carbon %", "3.1", "total-carbon"),
        ("Foo", "1", "columns-unknown"),
    ],
)
def test_what_is_not_what_it_looks_like_is_told(headings: str, cells: str, code: str) -> None:
    _found(_beside(headings, cells), code)


@pytest.mark.parametrize(("depth", "fits"), [("0-6 in", "because"), ("0-30 cm", "does not give")])
def test_pounds_per_acre_are_halved_only_at_six_to_seven_inches(depth: str, fits: str) -> None:
    proposal = _proposed("Sample,pH 1:1,Depth,P lb/ac", f"A,6,{depth},40")
    assert fits in in_english(_found(proposal, "per-area").said)


def test_conductivity_without_its_ratio_is_asked() -> None:
    proposal = _beside("EC dS/m", "0.4")
    finding = _found(proposal, "ec-ratio")
    assert set(finding.choices) == {"paste", "1:1", "1:2", "1:5"}
    assert "soil.ec_method" not in _values(proposal)
    assert _values(answered(proposal, {finding.key: "1:5"}, today=TODAY))["soil.ec_method"] == "1:5"


def test_limits_are_kept_as_limits() -> None:
    proposal = _beside("CaCO3 %,Exchangeable Al cmolc/kg", "<0.1,>8.2")
    _found(proposal, "limits")
    assert dict(proposal.rows[0].limits) == {
        "soil.carbonate_pct": "<0.1",
        "soil.exchangeable_al_cmolc_kg": ">8.2",
    }
    assert "soil.carbonate_pct" not in _values(proposal)


@pytest.mark.parametrize("nothing", ["n/a", "-", "*", "see note", "", "NA", "#N/A", "nan"])
def test_cells_without_a_figure_are_empty(nothing: str) -> None:
    proposal = _beside("OM %", nothing, "3")
    assert "soil.organic_matter_pct" not in _values(proposal)
    assert "value-word" not in _codes(proposal)


def test_a_word_in_a_column_of_figures_is_told() -> None:
    proposal = _beside("OM %", "3.1", "2.9", "high")
    assert [(one.row, one.column) for one in _found(proposal, "value-word").places] == [(4, "E")]
    assert proposal.rows[2].doubted == {"soil.organic_matter_pct": "high"}


def test_a_figure_that_a_spreadsheet_made_a_date_is_told() -> None:
    data = xlsx({"R": [["Sample", "pH 1:1"], ["A", 6.4], ["B", date(2026, 8, 6)], ["C", 6.1]]})
    proposal = propose(read_sheets(data, "report.xlsx"))
    assert [(one.row, one.column) for one in _found(proposal, "value-day").places] == [(3, "B")]
    assert "soil.ph" not in _values(proposal, 1)


def test_an_unusual_ph_is_held_back_until_it_is_confirmed() -> None:
    proposal = _proposed("Sample,pH 1:1", "A,2.4", "B,6.4")
    finding = _found(proposal, "ph-outside")
    assert [one.row for one in finding.places] == [2]
    assert "soil.ph" not in _values(proposal)
    assert _values(answered(proposal, {finding.key: "keep"}))["soil.ph"] == 2.4
    assert "soil.ph" not in _values(answered(proposal, {finding.key: "leave out"}))


def test_an_impossible_figure_is_told_and_held_back() -> None:
    proposal = _beside("OM %", "3", "2", "310")
    assert [one.row for one in _found(proposal, "value-impossible").places] == [4]


def test_units_that_change_on_the_way_are_asked_and_converted_by_their_own_unit() -> None:
    proposal = _proposed(
        "Sample,pH 1:1,OM %", "A,6,3.1", "B,6,2.8", ",,g/kg", "C,6,31", "Sample,pH 1:1,OM %",
        "D,6,2.2", "E,6,22 g/kg",
    )  # fmt: skip
    finding = _found(proposal, "units-mixed")
    assert [(one.row, one.column) for one in finding.places] == [(5, "C"), (8, "C")]
    assert all("soil.organic_matter_pct" not in row.values for row in proposal.rows)
    again = answered(proposal, {finding.key: "convert"})
    figures = [row.values["soil.organic_matter_pct"] for row in again.rows]
    assert figures == pytest.approx([3.1, 2.8, 3.1, 2.2, 2.2])


def test_a_unit_on_a_ph_is_a_slip_of_the_heading() -> None:
    _found(_proposed("Sample,pH CaCl2 (mg/kg)", "A,6"), "unit-contradicts")


@pytest.mark.parametrize(
    ("days", "order"),
    [
        (("03/04/2026", "23/04/2026"), date(2026, 4, 3)),
        (("03/04/2026", "03/24/2026"), date(2026, 3, 4)),
        (("03.04.2026", "04.04.2026"), date(2026, 4, 3)),
        (("3 Apr 2026", "4 Apr 2026"), date(2026, 4, 3)),
        (("46115", "46116"), date(2026, 4, 3)),
    ],
)
def test_the_order_of_dates_is_seen_where_the_file_shows_it(
    days: tuple[str, str], order: date
) -> None:
    proposal = _proposed("Sample,pH 1:1,Date", *(f"B{n},6,{day}" for n, day in enumerate(days)))
    assert _values(proposal)["soil.sampled"] == order


def test_the_order_of_dates_is_asked_where_nothing_shows_it() -> None:
    proposal = _proposed("Sample,pH 1:1,Date", "A,6,03/04/2026", "B,6,05/04/2026")
    finding = _found(proposal, "date-order")
    assert "soil.sampled" not in _values(proposal)
    again = answered(proposal, {finding.key: "month first"}, today=TODAY)
    assert _values(again)["soil.sampled"] == date(2026, 3, 4)


def test_a_report_before_its_sample_is_asked() -> None:
    proposal = _proposed(
        "Sample,pH 1:1,Date sampled,Date reported", "A,6,2026-05-04,2026-04-01",
        "B,6,2026-03-04,2026-04-01",
    )  # fmt: skip
    assert [one.row for one in _found(proposal, "report-before-sample").places] == [2]
    assert "soil.sampled" not in _values(proposal)


def test_a_sample_from_the_future_is_asked() -> None:
    proposal = _proposed("Sample,pH 1:1,Date sampled", "A,6,2027-05-04")
    _found(proposal, "sampled-later")
    assert "soil.sampled" not in _values(proposal)


@pytest.mark.parametrize(
    ("heading", "cell", "depth"),
    [
        ("Depth", "0-15 cm", "15 cm"),
        ("Depth", "0-6 in", "15.24 cm"),
        ("Depth (cm)", "20", "20 cm"),
        ("Tiefe cm", "0–30", "30 cm"),
        ("Sample Depth in", "7", "17.78 cm"),
    ],
)
def test_depths_are_read(heading: str, cell: str, depth: str) -> None:
    proposal = _proposed(f"Sample,pH 1:1,{heading}", f"A,6,{cell}")
    assert _values(proposal)["soil.sample_depth"] == depth


def test_a_depth_without_a_unit_or_without_a_figure_is_asked() -> None:
    proposal = _proposed("Sample,pH 1:1,Depth", "A,6,0-15", "B,6,topsoil")
    finding = _found(proposal, "depth-unit")
    _found(proposal, "depth-unread")
    again = answered(proposal, {finding.key: "cm"})
    assert _values(again)["soil.sample_depth"] == "15 cm"


def test_a_subsoil_is_no_topsoil_and_several_depths_are_told() -> None:
    proposal = _proposed(
        "Sample,pH 1:1,Depth from (cm),Depth to (cm)", "A,6,0,15", "B,5,15,30", "C,5,0,20"
    )  # fmt: skip
    assert [one.row for one in _found(proposal, "subsoil").places] == [3]
    _found(proposal, "several-depths")
    assert "soil.sample_depth" not in _values(proposal, 1)


def test_no_depth_and_no_day_are_asked_once_for_all() -> None:
    proposal = _proposed("Sample,pH 1:1", "A,6", "B,6.2")
    depth, day = _found(proposal, "no-depth"), _found(proposal, "no-day")
    again = answered(proposal, {depth.key: "6 in", day.key: "2026-03-04"}, today=TODAY)
    assert _values(again)["soil.sample_depth"] == "6 in"
    assert _values(again)["soil.sampled"] == date(2026, 3, 4)
    assert not again.questions


def test_two_rows_of_one_sample_are_asked_and_neither_enters() -> None:
    proposal = _proposed("Sample,pH 1:1", "A,6", "B,6.4", "A,6.9")
    finding = _found(proposal, "duplicate")
    assert [row.sample for row in confirmed(proposal)] == ["B"]
    assert [row.values["soil.ph"] for row in confirmed(proposal, {finding.key: "last"})] == [
        6.4,
        6.9,
    ]
    assert len(confirmed(proposal, {finding.key: "both"})) == 3


@pytest.mark.parametrize(
    ("second", "says"),
    [
        ("7.6,2025-03-09", "swapped"),
        ("7.6,2025-09-09", "different seasons"),
    ],
)
def test_a_jump_from_last_year_is_asked(second: str, says: str) -> None:
    proposal = _proposed("Sample,pH 1:1,Date", f"A,{second}", "A,6.2,2026-03-04")
    finding = _found(proposal, "jump")
    assert says in in_english(finding.said)
    assert finding.places[0].row == 3


def test_a_sample_from_deeper_down_is_asked() -> None:
    proposal = _proposed(
        "Sample,pH 1:1,Date,P ppm,K ppm,OM %",
        "A,6,2025-03-04,40,200,5", "A,6,2026-03-04,20,120,3",
    )  # fmt: skip
    _found(proposal, "deeper-sample")


def test_averages_repeated_headings_and_text_are_left_out_and_named() -> None:
    proposal = _proposed(
        "Report of the laboratory,,", "", "Sample,pH 1:1,OM %", "A,6,3", "Average,6,3",
        "Sample,pH 1:1,OM %", "B,6,3", "", "pH was measured in a slurry.,,",
    )  # fmt: skip
    assert [row.place.row for row in proposal.rows] == [4, 7]
    for code in ("skipped-average", "skipped-heading", "skipped-text"):
        assert "report.csv" in in_english(_found(proposal, code).said)


@pytest.mark.parametrize(
    ("cell", "figure"), [("1 234", 1234.0), ("1,234.5", 1234.5), ("1.234,5", 1234.5)]
)
def test_thousands(cell: str, figure: float) -> None:
    proposal = _beside("Bulk density kg/m3", f'"{cell}"')
    assert _values(proposal)["soil.bulk_density_g_cm3"] == pytest.approx(figure / 1000.0)


def test_a_comma_that_may_be_either_is_asked() -> None:
    proposal = _beside("Bulk density kg/m3", '"1,234"')
    finding = _found(proposal, "commas")
    again = answered(proposal, {finding.key: "thousands"}, today=TODAY)
    assert _values(again)["soil.bulk_density_g_cm3"] == pytest.approx(1.234)


def test_an_unsure_heading_is_asked() -> None:
    proposal = _beside("OM last year %", "3")
    finding = _found(proposal, "column-unsure")
    assert "soil.organic_matter_pct" not in _values(proposal)
    again = answered(proposal, {finding.key: "om"}, today=TODAY)
    assert _values(again)["soil.organic_matter_pct"] == 3.0


def test_last_years_column_is_not_taken_for_this_years() -> None:
    proposal = _proposed("Sample,pH 1:1 (2025),pH 1:1 (2026)", "A,6.4,6.1", "B,6.9,6.6")
    assert {one.key for one in proposal.questions if one.code == "column-unsure"} == {
        "pH 1:1 (2025): meaning",
        "pH 1:1 (2026): meaning",
    }
    assert "soil.ph" not in _values(proposal)
    again = answered(proposal, {"pH 1:1 (2025): meaning": "ignore", "pH 1:1 (2026): meaning": "ph"})
    assert _values(again)["soil.ph"] == 6.1


def test_a_jump_from_the_bed_before_the_file_is_asked() -> None:
    sheets = read_sheets(csv_of("Sample,pH 1:1", "North,7.4"), "report.csv")
    before = {"north": Earlier(ph=6.0, method="water 1:1", on=date(2025, 3, 1))}
    assert "6" in in_english(_found(propose(sheets, earlier=before), "jump").said)


def test_words_outside_our_lists_are_told_and_not_entered() -> None:
    proposal = _beside("Crop,Texture", "highbush blueberry,loam", "spelt hay mix,soil type 3")
    assert _values(proposal)["aim.plant"] == "highbush blueberry"
    assert {"aim.plant", "soil.texture"} <= set(proposal.rows[1].doubted)


def test_a_file_without_results_says_so() -> None:
    assert "no-table" in _codes(_proposed("Dear customer,", "thank you for your order"))


def test_every_lime_figure_is_held_against_ours_and_many_are_counted() -> None:
    head = "Sample,pH 1:1,Clay %,OM %,Date sampled,Depth,Lime t/ha"
    rows = [f"S{n},6.1,18,3,2026-03-04,0-15 cm,9" for n in range(90)]
    found = [one for one in _proposed(head, *rows).findings if one.code.startswith("lime-far")]
    assert sum(one.count for one in found) == 90, [one.code for one in found]
    assert len(found) == 21


def test_a_limit_is_told_by_the_name_of_its_field() -> None:
    found = _found(_proposed("Sample,pH (H2O),OM (%)", "A,6.1,<0.5"), "limits")
    assert "soil." not in in_english(found.said)
