"""How finely ground limestone is taken to be ground, by the law of the country a bed lies in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from itertools import pairwise
from typing import Final

from loamshift.domain.material import LimeGrade, Material, MaterialGroup, SizeClass
from loamshift.domain.place import Place
from loamshift.errors import TableError
from loamshift.tables.materials import load_materials
from loamshift.tables.rows import read_rows, words

LIMESTONE: Final = "ground limestone, calcitic"
GARDEN_LIME: Final = "garden lime, unknown grade"
BURNT_LIME: Final = "burnt lime, unknown grade"
KNOWN_AS: Final[Mapping[str, str]] = {GARDEN_LIME: LIMESTONE, BURNT_LIME: "burnt lime"}
"""What lime of unknown grade is taken for once its neutralising value is told."""
_BY_PLACE: Final = (LIMESTONE, "ground limestone, dolomitic", GARDEN_LIME)
_LENT_BY: Final[Mapping[LimeGrade, tuple[str, ...]]] = {
    LimeGrade.BRITISH: ("ground limestone, british standard",),
    LimeGrade.IRISH: ("ground limestone, irish standard",),
    LimeGrade.PULVERISED: (LIMESTONE,),
    LimeGrade.MIXED: (LIMESTONE, "ground limestone, british standard"),
}

_Outline = tuple[tuple[float, float], ...]


def grade_of_place(place: Place | None) -> LimeGrade:
    """The grade that ground limestone without a stated one is likely to have.

    British or Irish within the outlines of the table, the American pulverised grade elsewhere,
    and a mixture where the position is not known.

    Examples
    --------
    >>> from loamshift.tables.places import find_place
    >>> grade_of_place(find_place("Manchester")).value
    'british'
    """
    if place is None or place.longitude is None:
        return LimeGrade.MIXED
    for grade, outline in _regions():
        if _holds(outline, latitude=place.latitude, longitude=place.longitude):
            return grade
    return LimeGrade.PULVERISED


def is_graded_by_place(material: Material) -> bool:
    """Whether nothing but the place can tell how fine a lime is ground.

    So it is with ground limestone of no stated grade, and with a labelled lime without a fineness
    that has the sizes of one.
    """
    if material.label is None:
        return material.key in _BY_PLACE
    sizes = load_materials()[LIMESTONE].sizes
    return (
        not material.label.fineness
        and material.group is MaterialGroup.LIME
        and material.sizes == sizes
    )


def graded(material: Material, grade: LimeGrade) -> Material:
    """A lime in the fineness of a grade; the same where its fineness is known otherwise.

    Examples
    --------
    >>> lime = graded(load_materials()[LIMESTONE], LimeGrade.BRITISH)
    >>> lime.lime_grade.value, lime.sizes[0].mass_frac
    ('british', 0.4)
    """
    if not is_graded_by_place(material):
        return material
    return replace(material, sizes=sizes_of(grade), lime_grade=grade)


def sizes_of(grade: LimeGrade) -> tuple[SizeClass, ...]:
    """The size classes of a grade.

    Returns
    -------
    tuple of SizeClass
        Of a mixture each grade's in equal parts [um, 0-1].
    """
    lenders = [load_materials()[key] for key in _LENT_BY[grade]]
    return tuple(
        replace(size, mass_frac=size.mass_frac / len(lenders))
        for lender in lenders
        for size in lender.sizes
    )


def fine_share(grade: LimeGrade) -> float:
    """Share of a grade below 0.15 mm, the one figure that all three laws state.

    Returns
    -------
    float
        Share of the mass [0-1].
    """
    return sum(size.mass_frac for size in sizes_of(grade) if size.high_um <= 150.0)


def grade_sources(grade: LimeGrade) -> tuple[str, ...]:
    """Keys of the sources of a grade."""
    rows = read_rows("material_sizes")
    keys = [row["source_key"] for row in rows if row["key"] in _LENT_BY[grade]]
    return tuple(dict.fromkeys(keys))


@cache
def _regions() -> tuple[tuple[LimeGrade, _Outline], ...]:
    found = []
    for row in read_rows("lime_regions"):
        try:
            corners = [
                tuple(float(one) for one in corner.split()) for corner in words(row, "outline")
            ]
            found.append((LimeGrade(row["grade"]), tuple((north, east) for north, east in corners)))
        except ValueError as error:
            raise TableError(f"lime_regions, {row['key']}: {error}") from error
    return tuple(found)


def _holds(outline: _Outline, *, latitude: float, longitude: float) -> bool:
    """Whether a polygon holds a position: a line east crosses its edge an odd number of times."""
    inside = False
    for (north_a, east_a), (north_b, east_b) in pairwise((*outline, outline[0])):
        if (north_a > latitude) != (north_b > latitude):
            crossing = east_a + (latitude - north_a) / (north_b - north_a) * (east_b - east_a)
            inside ^= longitude < crossing
    return inside
