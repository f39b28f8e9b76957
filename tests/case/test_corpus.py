"""What a fuzzer found worth keeping is read again: a case, or faults that say how to mend it."""

from __future__ import annotations

import json
import math
from datetime import date
from pathlib import Path

import pytest

from loamshift.case.amounts import read_amount, read_rate
from loamshift.case.mend import Mend
from loamshift.case.quantities import (
    read_area_m2,
    read_depth_cm,
    read_diameter_cm,
    read_incorporated_cm,
    read_mass_g,
    read_temperature_c,
)
from loamshift.case.read import read_case
from loamshift.case.water_quantities import (
    read_alkalinity_mg_l_as_caco3,
    read_hardness_mg_l_as_caco3,
    read_weekly_water,
)
from loamshift.errors import CaseError

CORPUS = Path(__file__).parent / "corpus"
CASES = sorted(CORPUS.glob("*.toml"))
QUANTITIES = json.loads((CORPUS / "quantities.json").read_text(encoding="utf-8"))
READERS = (
    read_alkalinity_mg_l_as_caco3,
    read_amount,
    read_area_m2,
    read_depth_cm,
    read_diameter_cm,
    read_hardness_mg_l_as_caco3,
    read_incorporated_cm,
    read_mass_g,
    read_rate,
    read_temperature_c,
    read_weekly_water,
)


def test_the_corpus_is_there() -> None:
    assert len(CASES) >= 20 and len(QUANTITIES) >= 50


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_a_kept_file_is_read_or_mended(path: Path) -> None:
    try:
        read_case(path, today=date(2026, 4, 12))
    except CaseError as error:
        assert error.faults
        assert all(fault.path and fault.problem and fault.mend for fault in error.faults)


@pytest.mark.parametrize("read", READERS)
def test_a_kept_quantity_is_read_or_mended(read: object) -> None:
    assert callable(read)
    for text in QUANTITIES:
        try:
            found = read(text)
        except Mend as mend:
            assert mend.problem and mend.mend
        else:
            assert math.isfinite(getattr(found, "value", found)), text
