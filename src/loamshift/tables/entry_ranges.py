"""The usual ranges of figures in a case file, with the units they are mistaken in."""

from __future__ import annotations

from functools import cache

from loamshift.domain.entry_range import EntryRange, Gather, Side, UnitSlip
from loamshift.errors import TableError
from loamshift.tables.rows import Row, evidence, number, read_rows, truth


@cache
def load_entry_ranges() -> tuple[EntryRange, ...]:
    """Every usual range, in the order of the case file.

    Returns
    -------
    tuple of EntryRange
        One row for a key and the cases it is for [unit of the row].

    Raises
    ------
    TableError
        Where a range is empty or a factor is not above zero.

    Examples
    --------
    >>> [row.high for row in load_entry_ranges() if row.path == "soil.organic_matter_pct"]
    [20.0]
    """
    slips = [(row["path"], _slip(row)) for row in read_rows("entry_slips")]
    return tuple(
        _range(row, tuple(slip for path, slip in slips if path == row["path"]))
        for row in read_rows("entry_ranges")
    )


def _slip(row: Row) -> UnitSlip:
    slip = UnitSlip(
        side=Side(row["side"]),
        meant=row["meant"],
        factor=number(row, "factor"),
        offset=number(row, "offset"),
    )
    if slip.factor <= 0.0:
        raise TableError(f"unit slip of {row['path']}: the factor must be above zero")
    return slip


def _range(row: Row, slips: tuple[UnitSlip, ...]) -> EntryRange:
    low, high = number(row, "low"), number(row, "high")
    if not low < high:
        raise TableError(f"usual range of {row['path']}: {low:g} is not below {high:g}")
    return EntryRange(
        path=row["path"],
        attribute=row["attribute"],
        gather=Gather(row["gather"]),
        when=row["when"],
        phrase=row["phrase"],
        unit=row["unit"],
        low=low,
        high=high,
        zero_is_usual=truth(row, "zero"),
        hint=row["hint"],
        slips=slips,
        source_key=row["source_key"],
        evidence=evidence(row),
    )
