"""The limes of a case in the fineness that its place tells."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

from loamshift.domain.case import Case, OnHand
from loamshift.domain.material import LimeGrade, Material
from loamshift.tables.lime_grades import KNOWN_AS, grade_of_place, graded, is_graded_by_place
from loamshift.tables.materials import load_materials


def with_limes_graded(case: Case) -> Case:
    """A case whose limes of no stated fineness have that of the country the bed lies in.

    ``limes`` then holds the shipped ones so graded. Lime of unknown grade on hand with its
    neutralising value is no longer of unknown grade.
    """
    grade = grade_of_place(case.place)

    def mended(item: OnHand) -> OnHand:
        material = item.material
        if item.purity_pct is not None and material.label is None and material.key in KNOWN_AS:
            material = load_materials()[KNOWN_AS[material.key]]
        return replace(item, material=graded(material, grade))

    feed = case.feed
    if feed is not None and feed.material is not None:
        feed = replace(feed, material=graded(feed.material, grade))
    return replace(
        case,
        on_hand=tuple(mended(item) for item in case.on_hand),
        applied=tuple(replace(one, material=graded(one.material, grade)) for one in case.applied),
        claims=tuple(replace(one, material=graded(one.material, grade)) for one in case.claims),
        feed=feed,
        limes=_shipped(grade),
    )


@cache
def _shipped(grade: LimeGrade) -> tuple[Material, ...]:
    """The shipped limes of no stated fineness in a grade."""
    return tuple(
        graded(material, grade)
        for material in load_materials().values()
        if is_graded_by_place(material)
    )
