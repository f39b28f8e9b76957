"""A bulk density that leaves no room for the organic matter is asked about, never refused."""

from __future__ import annotations

import pytest

from loamshift.domain.answer import Severity
from loamshift.services.advise import advise
from loamshift.services.cautions.density_check import density_with_humus
from loamshift.services.context.build_context import build_context
from services.beds import bed
from wording import read

SOIL = (
    'ph = 6.4\nph_method = "water 1:1"\ntexture = "loam"\ncarbonate_pct = 0\n'
    "organic_matter_pct = {}\nbulk_density_g_cm3 = {}"
)


@pytest.mark.parametrize(
    ("matter", "density", "doubted"),
    [(3.0, 1.35, False), (10.0, 1.1, False), (19.4, 1.47, True), (54.3, 1.08, True)],
)
def test_what_hardly_goes_together_is_asked_about(
    matter: float, density: float, doubted: bool
) -> None:
    """By Adams 1973: in one gram of soil 0.194 g of organic matter alone fill 0.87 cm3, and a
    soil of 1.47 g/cm3 has 0.68."""
    found = density_with_humus(build_context(bed(SOIL.format(matter, density))))
    assert (found is not None) is doubted
    if found is not None:
        assert found.severity is Severity.CAUTION
        assert f"{matter:g}% organic matter" in read(found.comment)


def test_such_ground_gets_its_advice_where_humus_rots_too() -> None:
    ground = 'area = "20 m2"\nplanted = false\nbefore = "turf"\nbefore_years = 1'
    answer = advise(bed(SOIL.format(19.4, 1.47), bed=ground, aim="target_ph = 6.0"))
    assert answer.ledger is not None
