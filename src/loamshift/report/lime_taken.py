"""What lime an amount is reckoned with, where the place or a guess had to say so."""

from __future__ import annotations

from loamshift.domain.case import Case
from loamshift.domain.material import LimeGrade
from loamshift.domain.message import Measure, Message, Quantity, message
from loamshift.tables.lime_grades import KNOWN_AS, fine_share, grade_of_place, graded
from loamshift.tables.materials import load_materials
from loamshift.tables.parameters import load_parameters


def lime_taken(key: str, case: Case) -> list[Message]:
    """Which lime a product of a plan is taken for; nothing where its grade is known."""
    material = case.own_materials.get(key) or load_materials().get(key)
    if material is None:
        return []
    told = []
    if material.label is None and key in KNOWN_AS:
        row = load_parameters()["lime"]["unknown_grade_efficiency"]
        told.append(
            message(
                "lime-of-unknown-grade",
                middle=Measure(Quantity.SHARE, row.value),
                range=Measure(Quantity.SHARE, row.low or 0.0, row.high),
            )
        )
    grade = graded(material, grade_of_place(case.place)).lime_grade
    if grade is not LimeGrade.TOLD:
        fine = Measure(Quantity.SHARE, fine_share(grade))
        told.append(message("lime-taken-as", grade=grade.value, fine=fine))
    return told
