"""A buffer pH is asked for only where it would tell how strongly the soil resists."""

from __future__ import annotations

import pytest

from loamshift.domain.message import message
from loamshift.services.cautions.missing import missing
from loamshift.services.context.buffer_test import buffer_test_tells, free_lime_found
from loamshift.services.context.build_context import build_context
from loamshift.services.verdict.decide import decide
from services.beds import bed
from wording import read

LOAM = 'ph_method = "water 1:1"\ntexture = "loam"\norganic_matter_pct = 3\n'


@pytest.mark.parametrize(
    ("soil", "tells"),
    [
        ("ph = 5.2\n" + LOAM, True),
        ("ph = 7.2\n" + LOAM + "carbonate_pct = 0", True),
        ("ph = 7.5\n" + LOAM + "carbonate_pct = 0", False),
        ("ph = 7.2\n" + LOAM + "carbonate_pct = 1", False),
        ("ph = 7.2\n" + LOAM + 'fizz = "slight"\nfizz_acid = "HCl"', False),
        ("ph = 5.2\n" + LOAM + 'buffer_ph = 6.4\nbuffer_ph_method = "SMP"', False),
        ('ph = 5.2\nph_method = "water 1:5"\nmedium = "peat mix"', False),
    ],
)
def test_a_buffer_ph_tells_nothing_of_limy_soil(soil: str, tells: bool) -> None:
    assert buffer_test_tells(build_context(bed(soil))) is tells


def test_free_lime_is_found_by_a_fizz_or_a_laboratory() -> None:
    found = 'fizz = "slight"\nfizz_acid = "HCl"'
    assert free_lime_found(build_context(bed("ph = 7.2\n" + LOAM + found)))
    assert not free_lime_found(build_context(bed("ph = 7.2\n" + LOAM + "carbonate_pct = 0")))


@pytest.mark.parametrize(("ph", "asked"), [(6.9, True), (7.6, False)])
def test_a_letter_asks_for_a_test_that_tells(ph: float, asked: bool) -> None:
    decided = decide(build_context(bed(f"ph = {ph}\n" + LOAM + "carbonate_pct = 0")))
    rows = missing(decided.context, decided.judged)
    how = next(row.how for row in rows if row.field == "titration")
    assert how == message("missing-titration-how", test="buffer" if asked else "jar")
    assert ("buffer pH" in read(how)) is asked
