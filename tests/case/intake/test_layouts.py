"""The layouts of laboratory files, and headings in the languages of the trade."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from case.intake.made import csv_of, ods, pdf, xlsx
from loamshift.case.intake.entered import case_files
from loamshift.case.intake.figures import Commas, read_figure
from loamshift.case.intake.proposal import Proposal
from loamshift.case.intake.propose import confirmed, propose
from loamshift.case.intake.sheet import Sheet
from loamshift.case.intake.sheets import read_sheets
from loamshift.case.mend import in_english
from loamshift.tables.header_words import load_header_words
from tries import tries

TODAY = date(2026, 11, 1)


def _read(data: bytes) -> Proposal:
    return propose(read_sheets(data, "report"), today=TODAY)


def _ph_and_om(proposal: Proposal) -> list[tuple[object, object, object]]:
    keys = ("name", "soil.ph", "soil.organic_matter_pct")
    return [tuple(row.values.get(key) for key in keys) for row in proposal.rows]  # type: ignore[misc]


EXPECTED = [("North", 6.1, 3.2), ("South", 5.8, 4.1)]


@pytest.mark.parametrize(
    "data",
    [
        csv_of("Sample,pH (CaCl2),OM %", "North,6.1,3.2", "South,5.8,4.1"),
        csv_of("Sample;pH (CaCl2);Org. matter (%)", "North;6,1;3,2", "South;5,8;4,1"),
        "Sample\tpH (CaCl2)\tOM %\nNorth\t6,1\t3,2\nSouth\t5,8\t4,1".encode("utf-16"),
        csv_of(
            "Report 1234,,", "Client: Riverside,,", "", "Sample,pH,OM", ",CaCl2,%", "",
            "North,6.1,3.2", "South,5.8,4.1", "", "End of report,,",
        ),
        csv_of(
            "Sample ID,Analyte,Result,Unit,Method", "North,pH,6.1,,CaCl2",
            "North,Organic matter,32,g/kg,LOI", "South,Organic matter,41,g/kg,LOI",
            "South,pH,5.8,,CaCl2",
        ),
        csv_of("Analysis,Unit,North,South", "pH (CaCl2),,6.1,5.8", "OM,%,3.2,4.1", "P,ppm,9,12"),
        xlsx(
            {
                "Results": [["Sample", "pH", None, "OM"], [None, "CaCl2", "KCl", "%"],
                            ["North", 6.1, 5.2, 3.2], ["South", 5.8, 5.0, 4.1]],
                "Readme": [["Prices on request"]],
            },
            merge={"Results": "B1:C1"},
        ),
        xlsx(
            {
                "Data": [["Sample", "pH", "OM"], ["North", 6.1, 3.2], ["South", 5.8, 4.1]],
                "Legend": [["Column", "Meaning"], ["pH", "pH in 0.01 M CaCl2 1:5"],
                           ["OM", "Organic matter in %"]],
            }
        ),
        ods([["Sample", "pH (CaCl2)", "OM %"], ["North", 6.1, 3.2], ["South", 5.8, 4.1]]),
        pdf(
            "#table(columns:3, [Sample],[pH (CaCl2)],[OM %],"
            "[North],[6.1],[3.2],[South],[5.8],[4.1])"
        ),
        pdf(
            "Sample: North \\\n pH (CaCl2) 6.1 \\\n Organic matter 3.2 % \n#pagebreak()\n"
            "Sample: South \\\n pH (CaCl2) 5.8 \\\n Organic matter 4.1 %"
        ),
    ],
    ids=[
        *("wide", "semicolons", "utf-16", "two heading rows", "long", "across", "merged"),
        *("legend", "ods", "pdf table", "pdf pages"),
    ],
)  # fmt: skip
def test_one_report_in_every_layout(data: bytes) -> None:
    proposal = _read(data)
    assert _ph_and_om(proposal) == EXPECTED
    assert {row.values["soil.ph_method"] for row in proposal.rows} == {"CaCl2"}


def test_a_long_export_with_joined_headings_and_methods_in_a_column() -> None:
    proposal = _read(
        csv_of(
            "SampleID,DateSampled,TestName,Value,Units,MethodCode",
            "N1,2026-03-01,pH,6.2,S.U.,CaCl2",
            "N1,2026-03-01,Buffer pH,6.8,S.U.,Sikora",
            "N1,2026-03-01,Potassium,150,ppm,M3",
        )
    )
    (row,) = proposal.rows
    assert dict(row.values) == {
        "name": "N1",
        "soil.ph": 6.2,
        "soil.ph_method": "CaCl2",
        "soil.buffer_ph": 6.8,
        "soil.buffer_ph_method": "Sikora",
        "soil.sampled": date(2026, 3, 1),
    }


def test_several_labels_on_a_line_of_a_report_are_told_apart() -> None:
    proposal = _read(
        pdf(
            "Sample ref: Long border Date sampled: 4 March 2026 Lab no: 5 \\\n"
            "pH (CaCl2) 6.1 \\\n Organic matter 3.2 %"
        )
    )
    assert (proposal.rows[0].sample, proposal.rows[0].values["soil.sampled"]) == (
        "Long border",
        date(2026, 3, 4),
    )


@pytest.mark.parametrize(
    ("headings", "cells", "values"),
    [
        (
            "Probe;pH-Wert CaCl2;Humus %;Ton %;Kalkbedarf dt CaO/ha;Entnahmedatum;Tiefe cm",
            "Beet 1;5,9;2,4;18;12;04.03.2026;0-20",
            {"soil.ph": 5.9, "soil.organic_matter_pct": 2.4, "soil.clay_pct": 18.0},
        ),
        (
            "Référence échantillon;pH eau 1:5;Matière organique g/kg;Calcaire total g/kg;Argile %",
            "Parcelle A;7,6;24;85;22",
            {"soil.ph": 7.6, "soil.organic_matter_pct": 2.4, "soil.carbonate_pct": 8.5},
        ),
        (
            "Monster;pH-KCl;Organische stof %;Lutum %;Koolzure kalk %",
            "Perceel 1;5,2;3,1;12;0,4",
            {"soil.ph": 5.2, "soil.organic_matter_pct": 3.1, "soil.carbonate_pct": 0.4},
        ),
        (
            "Muestra;pH agua 1:2,5;Materia orgánica %;CIC meq/100g;Arcilla %",
            "Lote 3;6,7;2,2;14;24",
            {"soil.ph": 6.7, "soil.organic_matter_pct": 2.2, "soil.cec_cmolc_kg": 14.0},
        ),
        (
            "Amostra;pH CaCl2;MO %;CTC mmolc/kg;Argila %",
            "Talhão 2;4,9;2,5;70;35",
            {"soil.ph": 4.9, "soil.organic_matter_pct": 2.5, "soil.cec_cmolc_kg": 7.0},
        ),
        (
            "Nr próbki;pH w KCl;Próchnica %;Węglan wapnia %;Data pobrania",
            "Działka 4;5,6;1,9;0,6;04.03.2026",
            {"soil.ph": 5.6, "soil.organic_matter_pct": 1.9, "soil.sampled": date(2026, 3, 4)},
        ),
        (
            "Prov nr;pH vatten 1:5;Mullhalt %;Lerhalt %;Provtagningsdatum",
            "Skifte 7;6,2;3,4;28;2026-03-04",
            {"soil.ph": 6.2, "soil.organic_matter_pct": 3.4, "soil.clay_pct": 28.0},
        ),
    ],
    ids=["German", "French", "Dutch", "Spanish", "Portuguese", "Polish", "Swedish"],
)
def test_headings_in_other_languages(headings: str, cells: str, values: dict[str, object]) -> None:
    proposal = _read(csv_of(headings, cells))
    assert {key: proposal.rows[0].values.get(key) for key in values} == values


def test_the_words_of_headings_are_plain() -> None:
    for words, meant in load_header_words().items():
        assert words == words.casefold() and words.isascii(), words
        assert len({one.key for one in meant}) == 1 or words == "mo", words


@pytest.mark.parametrize(
    ("cell", "commas", "value", "limit"),
    [
        ("6,8", None, 6.8, ""),
        ("1,234", Commas.THOUSANDS, 1234.0, ""),
        ("1 234", None, 1234.0, ""),
        ("1'234.5", None, 1234.5, ""),
        ("1.234,56", None, 1234.56, ""),
        ("< 0,1", None, 0.1, "<"),
        (">8.2", None, 8.2, ">"),
        ("−0.5", None, -0.5, ""),
        (".5", None, 0.5, ""),
        ("1e3", None, 1000.0, ""),
        ("6.5 %", None, 6.5, ""),
    ],
)
def test_figures(cell: str, commas: Commas | None, value: float, limit: str) -> None:
    figure = read_figure(cell, commas)
    assert figure is not None
    assert (figure.value, figure.limit) == (value, limit)


@pytest.mark.parametrize("cell", ["", "1:5", "12/03/2026", "0-15", "none", "pH 6", "1e999", "∞"])
def test_what_is_no_figure(cell: str) -> None:
    assert read_figure(cell) is None


HEADINGS = st.sampled_from(
    (
        *("Sample", "pH", "pH CaCl2", "Buffer pH", "OM %", "OC", "CEC", "Clay", "Sand", "Silt"),
        *("Date", "Depth", "Lime t/ha", "CaCO3 %", "Texture", "Crop", "Ca ppm", "Mg ppm", "EC 1:5"),
        *("Result", "Unit", "Average", "pH", "Date reported", "Depth from cm", "Depth to cm"),
        *("Analyte", "Method", "Fizz", "Alkalinity meq/L"),
    )
)
CELLS = st.one_of(
    st.sampled_from(("6.1", "5,8", "<0.1", "n/a", "", "0-15 cm", "03/04/2026", "loam", "g/kg", "%"))
    | st.sampled_from(("2026-03-04", "1,234", "400", "-3", "=1+1", "Mean", "pH", "north", "1e300")),
    st.text(max_size=12),
    st.floats(allow_nan=True).map(str),
)
SHEETS = st.builds(
    lambda head, body, name: Sheet(name=name, rows=(tuple(head), *map(tuple, body))),
    st.lists(st.one_of(HEADINGS, st.text(max_size=10)), max_size=8),
    st.lists(st.lists(CELLS, max_size=9), max_size=8),
    st.text(min_size=1, max_size=8),
)


@tries(300)
@given(st.lists(SHEETS, max_size=3))
def test_any_cells_are_understood_or_asked_and_what_enters_is_a_case(sheets: list[Sheet]) -> None:
    proposal = propose(sheets, today=TODAY)
    for finding in proposal.findings:
        assert in_english(finding.said)
        assert finding.question is None or in_english(finding.question)
    rows = confirmed(proposal)
    assert len(list(case_files(rows, today=TODAY))) == len(rows)
