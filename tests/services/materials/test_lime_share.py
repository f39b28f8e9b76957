"""What of a lime counts: usual, wider where no place is known, widest where nobody knows it."""

from __future__ import annotations

import numpy as np
import pytest

from loamshift.domain.evidence import Parameter
from loamshift.domain.material import LimeGrade, Material
from loamshift.services.materials.lime_share import doubt_power, event_factor, member_shares
from loamshift.tables.lime_grades import GARDEN_LIME, LIMESTONE, graded
from loamshift.tables.lime_share import (
    against_usual,
    is_of_unknown_grade,
    usual_share,
)
from loamshift.tables.materials import load_materials
from loamshift.tables.parameters import load_parameters

MATERIALS = load_materials()
USUAL = load_parameters()["lime"]["field_efficiency"]
UNKNOWN = load_parameters()["lime"]["unknown_grade_efficiency"]
PLACELESS = load_parameters()["lime"]["unknown_place_efficiency"]
Z95 = 1.959964
KNOWN_DRAWS = USUAL.value * np.exp(
    np.log(USUAL.high / USUAL.low) / (2.0 * Z95) * np.linspace(-3.0, 3.0, 601)
)


def test_a_known_lime_keeps_the_draws_it_had() -> None:
    for key in (LIMESTONE, "ground limestone, british standard", "wood ash"):
        material = graded(MATERIALS[key], LimeGrade.BRITISH)
        assert member_shares(material, KNOWN_DRAWS) is KNOWN_DRAWS
        assert doubt_power(material) == event_factor(material) == against_usual(material) == 1.0


@pytest.mark.parametrize(
    ("material", "row"),
    [
        (MATERIALS[GARDEN_LIME], UNKNOWN),
        (MATERIALS["burnt lime, unknown grade"], UNKNOWN),
        (graded(MATERIALS[LIMESTONE], LimeGrade.MIXED), PLACELESS),
    ],
)
def test_the_share_of_each_bed_has_the_range_of_its_row(material: Material, row: Parameter) -> None:
    shares = member_shares(material, KNOWN_DRAWS)
    assert shares[300] == pytest.approx(row.value)
    assert Z95 / 3.0 * np.log(shares[-1] / shares[0]) == pytest.approx(np.log(row.high / row.low))


def test_the_event_and_the_power_make_the_same_share() -> None:
    lime = MATERIALS[GARDEN_LIME]
    assert event_factor(lime) * KNOWN_DRAWS ** doubt_power(lime) == pytest.approx(
        member_shares(lime, KNOWN_DRAWS)
    )


def test_unknown_lime_counts_less_and_is_less_sure() -> None:
    lime = MATERIALS[GARDEN_LIME]
    assert is_of_unknown_grade(lime) and not is_of_unknown_grade(MATERIALS[LIMESTONE])
    assert usual_share(lime) < usual_share(MATERIALS[LIMESTONE])
    assert doubt_power(lime) > doubt_power(graded(MATERIALS[LIMESTONE], LimeGrade.MIXED)) > 1.0
