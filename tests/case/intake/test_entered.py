from __future__ import annotations

import csv
import io

import pytest

from case.intake.made import csv_of
from loamshift.case.intake.entered import table_text
from loamshift.case.intake.propose import confirmed, propose
from loamshift.case.intake.sheets import read_sheets


def names(*samples: str) -> list[str]:
    text = csv_of("Sample,pH 1:1", *(f"{sample},6.{n}" for n, sample in enumerate(samples)))
    rows = confirmed(propose(read_sheets(text, "report.csv")))
    return [row["name"] for row in csv.DictReader(io.StringIO(table_text(rows)))]


@pytest.mark.parametrize("sample", ["=1+1", "+44 bed", "-north", "@home", "＝1+1", "'quoted"])
def test_a_name_that_begins_like_a_formula_opens_as_text(sample: str) -> None:
    """The signs are those of OWASP, "CSV Injection" (owasp.org, community attacks)."""
    marked, plain = names(sample, "north - south")
    assert marked == f"'{sample}"
    assert plain == "north - south"


def test_a_figure_stays_a_figure() -> None:
    rows = confirmed(propose(read_sheets(csv_of("Sample,pH 1:1", "=1,6.5"), "report.csv")))
    (row,) = csv.DictReader(io.StringIO(table_text(rows)))
    assert row["soil.ph"] == "6.5"
