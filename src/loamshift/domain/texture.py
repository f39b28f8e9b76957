"""Texture class from sand and clay, by the texture triangle of the USDA."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from loamshift.errors import OutOfRangeError

_Rule = Callable[[float, float, float], bool]

_RULES: Final[tuple[tuple[str, _Rule], ...]] = (
    ("clay", lambda sand, silt, clay: clay >= 40.0 and sand <= 45.0 and silt < 40.0),
    ("silty clay", lambda sand, silt, clay: clay >= 40.0 and silt >= 40.0),
    ("sandy clay", lambda sand, silt, clay: clay >= 35.0 and sand > 45.0),
    ("silty clay loam", lambda sand, silt, clay: 27.0 <= clay < 40.0 and sand <= 20.0),
    ("clay loam", lambda sand, silt, clay: 27.0 <= clay < 40.0 and 20.0 < sand <= 45.0),
    (
        "sandy clay loam",
        lambda sand, silt, clay: 20.0 <= clay < 35.0 and silt < 28.0 and sand > 45.0,
    ),
    (
        "loam",
        lambda sand, silt, clay: 7.0 <= clay < 27.0 and 28.0 <= silt < 50.0 and sand <= 52.0,
    ),
    ("silt", lambda sand, silt, clay: silt >= 80.0 and clay < 12.0),
    (
        "silt loam",
        lambda sand, silt, clay: clay < 27.0 and silt >= 50.0 and not (silt >= 80.0 and clay < 12),
    ),
    ("sand", lambda sand, silt, clay: silt + 1.5 * clay < 15.0),
    (
        "loamy sand",
        lambda sand, silt, clay: silt + 1.5 * clay >= 15.0 and silt + 2.0 * clay < 30.0,
    ),
    (
        "sandy loam",
        lambda sand, silt, clay: (
            silt + 2.0 * clay >= 30.0
            and ((7.0 <= clay < 20.0 and sand > 52.0) or (clay < 7.0 and silt < 50.0))
        ),
    ),
)
"""Class to its bounds [%]. No two hold at once, and one always does."""


def texture_class_from_fractions(*, sand_pct: float, clay_pct: float) -> str:
    """The texture class of a mineral soil from its sand and clay.

    Answers which of the twelve classes a laboratory's particle sizes mean. Stones, organic
    matter and carbonate are left out.

    Parameters
    ----------
    sand_pct
        Sand, 0.05 to 2 mm, share of the mineral fine earth, 0 to 100 [%].
    clay_pct
        Clay, under 0.002 mm, likewise [%].

    Raises
    ------
    OutOfRangeError
        Where a share is not 0 to 100, or the two come to more than 100 %.

    Notes
    -----
    Bounds of the USDA classes; a point on a boundary goes to the finer class, as the
    clarification of 2009 has it. Silt is the rest.

    References
    ----------
    usda-texture-classes

    Examples
    --------
    >>> texture_class_from_fractions(sand_pct=40, clay_pct=20)
    'loam'
    """
    for name, value in (("sand_pct", sand_pct), ("clay_pct", clay_pct)):
        if not 0.0 <= value <= 100.0:
            raise OutOfRangeError(f"{name} = {value:g} must lie between 0 and 100 %")
    silt_pct = 100.0 - sand_pct - clay_pct
    if silt_pct < -0.5:
        raise OutOfRangeError(
            f"sand {sand_pct:g} % and clay {clay_pct:g} % come to more than 100 %; check which "
            "figure belongs to which fraction"
        )
    # Rounded figures may come to 100.4 %; and thirds of 100 must not fall off a boundary.
    silt_pct = round(max(0.0, silt_pct), 9)
    return next(key for key, holds in _RULES if holds(sand_pct, silt_pct, clay_pct))
