"""A laboratory's own layout as a long table: what intake understood of it, row by row."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from loamshift.case.intake.proposal import SampleRow
from loamshift.case.intake.propose import confirmed, propose
from loamshift.case.intake.refused import refuse
from loamshift.case.intake.sheets import read_sheets
from loamshift.case.mend import Refused
from loamshift.case.table.block import Block, HeldBack, Place
from loamshift.domain.decision import Severity
from loamshift.domain.message import Given, Worded, message

HEADING_MAP = "map.toml"
"""What a mapping file is called where none was named."""


@dataclass(frozen=True, slots=True, kw_only=True)
class IntakeTable:
    """The samples of a file of another layout; a place in it is a sample, from 0."""

    path: Path
    samples: tuple[SampleRow, ...]
    left_out: tuple[Worded, ...] = ()
    """What stays out until a question about it is answered, a sentence for each."""

    @property
    def headings(self) -> tuple[str, ...]:
        """The keys of the case file that the samples fill."""
        found: dict[str, None] = {}
        for sample in self.samples:
            found |= dict.fromkeys(sample.values)
        return tuple(found)

    @property
    def begin(self) -> Place:
        """Where its first block begins."""
        return Place(row=self.samples[0].place.row)

    @property
    def length(self) -> int:
        """How many samples there are [count]."""
        return len(self.samples)

    def blocks(self, start: Place, *, used: tuple[str, ...], rows: int) -> Iterator[Block]:
        """The blocks from a place on.

        Parameters
        ----------
        used
            Keys that are read.
        rows
            Rows of a block, at most [count].
        """
        import pyarrow as pa

        number = start.number
        for begin in range(start.start, self.length, rows):
            part = self.samples[begin : begin + rows]
            columns = [
                pa.array([_text(one.values.get(path)) for one in part], pa.string())
                for path in used
            ]
            yield Block(
                number=number,
                start=begin,
                end=begin + len(part),
                next_row=part[-1].place.row + 1,
                rows=tuple(one.place.row for one in part),
                cells=pa.table(columns, names=list(used)),
                held_back=tuple(held for one in part for held in _held_back(one)),
            )
            number += 1


def open_by_intake(
    path: Path, answers: Mapping[str, str], *, map_file: Path | None, today: date
) -> IntakeTable:
    """A file of another layout by what intake makes of it.

    Parameters
    ----------
    answers
        Answers to its questions, as a mapping file keeps them.
    map_file
        That mapping file, None where none was named.
    today
        The day against which a sample from the future is seen.

    Raises
    ------
    Refused
        Where it cannot be read, holds no samples, or a question is open
        about more than magnesium or phosphorus.
    """
    proposal = propose(read_sheets(path), answers, today=today)
    rows = confirmed(proposal)
    if not rows:
        raise refuse("table-nothing-known", file=path.name)
    needed = [one for one in proposal.questions if one.severity is not Severity.INFO]
    if needed:
        mapping = Given(str(map_file or HEADING_MAP))
        count, file = len(needed), Given(str(path))
        raise Refused(message("table-questions", count=count, file=file, map=mapping))
    left_out = tuple(one.said for one in proposal.questions)
    return IntakeTable(path=path, samples=rows, left_out=left_out)


def _held_back(sample: SampleRow) -> Iterator[HeldBack]:
    for path, text in {**sample.limits, **sample.doubted}.items():
        yield HeldBack(row=sample.place.row, key=sample.sample, path=path, given=text)


def _text(value: object) -> str | None:
    if value is None:
        return None
    return value.isoformat() if isinstance(value, date) else str(value)
