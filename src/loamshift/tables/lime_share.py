"""The share of a lime that counts in the field, by what is known of it."""

from __future__ import annotations

from typing import Final

from loamshift.domain.material import LimeGrade, Material
from loamshift.tables.lime_grades import KNOWN_AS
from loamshift.tables.parameters import parameter_values

USUAL: Final = "field_efficiency"
OF_UNKNOWN_GRADE: Final = "unknown_grade_efficiency"
OF_UNKNOWN_PLACE: Final = "unknown_place_efficiency"


def is_of_unknown_grade(material: Material) -> bool:
    """Whether nobody knows what a lime is worth: no name, no label."""
    return material.label is None and material.key in KNOWN_AS


def share_row(material: Material) -> str:
    """Row of the topic ``lime`` for the share of a lime that counts."""
    if is_of_unknown_grade(material):
        return OF_UNKNOWN_GRADE
    return OF_UNKNOWN_PLACE if material.lime_grade is LimeGrade.MIXED else USUAL


def usual_share(material: Material) -> float:
    """The middle of the share of a lime that counts.

    Returns
    -------
    float
        Share of its neutralising value [0-1].

    Examples
    --------
    >>> from loamshift.tables.materials import load_materials
    >>> usual_share(load_materials()["garden lime, unknown grade"])
    0.6
    """
    return parameter_values("lime")[share_row(material)]


def against_usual(material: Material) -> float:
    """The share of a lime that counts over that of a lime of a known grade.

    Returns
    -------
    float
        1 where its grade is known or it is no lime [-].
    """
    return usual_share(material) / parameter_values("lime")[USUAL]
