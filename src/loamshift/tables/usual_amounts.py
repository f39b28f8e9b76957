"""What people commonly put on of each folk remedy."""

from __future__ import annotations

from functools import cache

from loamshift.domain.claims_sheet import UsualAmount
from loamshift.errors import TableError
from loamshift.tables.rows import evidence, number_or_none, read_rows


@cache
def load_usual_amounts() -> tuple[UsualAmount, ...]:
    """Every usual amount, in the order they are listed.

    Raises
    ------
    TableError
        Where a row has not exactly one of depth, volume and mass.

    Examples
    --------
    >>> [row.depth_cm for row in load_usual_amounts() if row.key == "sphagnum peat"]
    [5.0]
    """
    amounts = []
    for row in read_rows("usual_amounts"):
        figures = {
            name: number_or_none(row, name) for name in ("depth_cm", "volume_l_m2", "mass_g_m2")
        }
        if sum(value is not None for value in figures.values()) != 1:
            raise TableError(f"usual amount of {row['key']}: give a depth, a volume or a mass")
        amounts.append(
            UsualAmount(
                key=row["key"],
                for_need=row["for_need"],
                way=row["way"],
                source_key=row["source_key"],
                evidence=evidence(row),
                **figures,
            )
        )
    return tuple(amounts)
