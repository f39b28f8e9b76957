"""Cups, spoons, handfuls and buckets."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from loamshift.domain.rules import KitchenMeasure
from loamshift.errors import TableError
from loamshift.tables.rows import evidence, number, number_or_none, read_rows, words


@cache
def load_kitchen_measures() -> Mapping[str, KitchenMeasure]:
    """Every kitchen and garden measure by its name.

    Returns
    -------
    Mapping
        Name to measure; a volume [L], or a mass [g] for a handful.

    Raises
    ------
    TableError
        Where a row has neither, or both, of volume and mass.

    Examples
    --------
    >>> load_kitchen_measures()["metric cup"].volume_l
    0.25
    """
    measures: dict[str, KitchenMeasure] = {}
    for row in read_rows("kitchen_measures"):
        volume_l, mass_g = number_or_none(row, "volume_l"), number_or_none(row, "mass_g")
        if (volume_l is None) == (mass_g is None) or row["name"] in measures:
            raise TableError(f"measure {row['name']} needs one row with either volume or mass")
        measures[row["name"]] = KitchenMeasure(
            name=row["name"],
            synonyms=words(row, "synonyms"),
            volume_l=volume_l,
            mass_g=mass_g,
            low=number(row, "low"),
            high=number(row, "high"),
            source_key=row["source_key"],
            evidence=evidence(row),
            note=row["note"],
        )
    return MappingProxyType(measures)
