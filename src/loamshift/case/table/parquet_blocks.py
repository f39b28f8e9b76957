"""A Parquet file of any length in blocks of rows; its cells keep their types."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Final

from loamshift.case.intake.refused import refuse
from loamshift.case.table.block import Block, Place

if TYPE_CHECKING:
    import pyarrow as pa

_BUFFER_BYTES: Final = 1 << 20


@dataclass(frozen=True, slots=True, kw_only=True)
class ParquetTable:
    """A Parquet file: its headings and how many rows it has; a place in it is a row from 0."""

    path: Path
    headings: tuple[str, ...]
    length: int

    @property
    def begin(self) -> Place:
        """Where its first block begins: its first row is row 1."""
        return Place(row=1)

    def blocks(self, start: Place, *, used: tuple[str, ...], rows: int) -> Iterator[Block]:
        """The blocks from a place on; none reaches over two row groups.

        Parameters
        ----------
        used
            Headings of the columns that are read.
        rows
            Rows of a block, at most [count].
        """
        import pyarrow as pa
        import pyarrow.parquet as pq

        number, done = start.number, 0
        with pq.ParquetFile(self.path, buffer_size=_BUFFER_BYTES) as file:
            for group in range(file.num_row_groups):
                size = file.metadata.row_group(group).num_rows
                if done + size <= start.start:
                    done += size
                    continue
                batches = file.iter_batches(rows, row_groups=[group], columns=list(used))
                for batch in batches:
                    begin, done = done, done + batch.num_rows
                    if begin < start.start:
                        continue
                    cells: pa.Table = pa.Table.from_batches([batch])
                    yield Block(
                        number=number,
                        start=begin,
                        end=done,
                        next_row=done + 1,
                        rows=tuple(range(begin + 1, done + 1)),
                        cells=cells,
                    )
                    number += 1


def open_parquet(path: Path) -> ParquetTable:
    """A Parquet file by its footer.

    Raises
    ------
    Refused
        Where the file is damaged or cut off.
    """
    import pyarrow as pa
    import pyarrow.parquet as pq

    try:
        with pq.ParquetFile(path) as file:
            names, rows = file.schema_arrow.names, file.metadata.num_rows
    except pa.ArrowInvalid:
        raise refuse("table-parquet-damaged", file=path.name) from None
    return ParquetTable(path=path, headings=tuple(names), length=rows)
