"""Above pH 8.5 sodium is the likelier cause, and is tested before anything goes on."""

from __future__ import annotations

import pytest

from loamshift.domain.answer import Decision, Reason
from loamshift.services.advise import LookAhead, advise
from services.beds import bed

SOIL = 'ph = {}\nph_method = "{}"\ntexture = "clay loam"\norganic_matter_pct = 2\n'
# A saturated paste at pH 8.5 or more almost always means 15 % exchangeable sodium or more
# (US Salinity Laboratory Staff, 1954, Agriculture Handbook 60); figure from memory.


@pytest.mark.parametrize("look_ahead", [None, LookAhead(members=25)])
def test_a_careful_reading_so_high_asks_for_sodium(look_ahead: LookAhead | None) -> None:
    answer = advise(bed(SOIL.format(9.1, "water 1:1")), look_ahead=look_ahead)
    assert answer.verdict.decision is Decision.MEASURE_FIRST
    assert answer.verdict.reason is Reason.UNKNOWN_SODIUM
    assert answer.plan is None and answer.forecast is None
    assert answer.ledger is None and answer.upkeep is None
    assert answer.missing[0].field == "soil.sodium_pct"


@pytest.mark.parametrize(
    ("ph", "method", "more"),
    [
        (8.3, "water 1:1", ""),
        (9.1, "probe", ""),
        (9.1, "water 1:1", "sodium_pct = 3\n"),
        (9.1, "water 1:1", 'medium = "peat mix"\n'),
    ],
)
def test_nothing_else_does(ph: float, method: str, more: str) -> None:
    answer = advise(bed(SOIL.format(ph, method) + more))
    assert answer.verdict.reason is not Reason.UNKNOWN_SODIUM


def test_tested_and_too_high_is_a_stop() -> None:
    answer = advise(bed(SOIL.format(9.1, "water 1:1") + "sodium_pct = 20\n"))
    assert answer.verdict.reason is Reason.SODIC and answer.ledger is None
