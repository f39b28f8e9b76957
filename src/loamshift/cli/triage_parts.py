"""The parts of a run over many rows, kept beside its result until it is whole.

Each block is written once, whole or not at all, its account last: a run that was killed goes on
behind the accounts that are there, so that no row is lost and none is answered twice.
"""

from __future__ import annotations

import json
import shutil
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from loamshift.case.table.block import FAULT, Block, Place, Problem
from loamshift.case.table.outcome_table import JOINED
from loamshift.cli.files import make_folder, write_whole
from loamshift.domain.message import Given, Listed, message
from loamshift.domain.worded_error import WordedError, given

if TYPE_CHECKING:
    import pyarrow as pa

    from loamshift.case.table.judge_block import Judged

PLAN: Final = "run.json"
KEY_COLUMN: Final = "_key"
"""Keys of the rows as numbers, beside the columns of the result."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Account:
    """What is kept of a block: where it stands, how many rows it answered, and how many not."""

    number: int
    start: int
    end: int
    next_row: int
    answered: int
    faulty: int
    bytes: int

    @property
    def size(self) -> int:
        """How much of the file it takes [places]."""
        return self.end - self.start

    @property
    def behind(self) -> Place:
        """Where the next block begins."""
        return Place(number=self.number + 1, start=self.end, row=self.next_row)


class Parts:
    """The folder of a run: its plan, and the blocks that are done.

    ``answered`` and ``faulty`` are rows so far [count], ``size`` is how much of the file they take
    [places]: kept as sums, since they are asked for after every block of a file of any length.
    """

    def __init__(self, folder: Path, plan: Mapping[str, Any]) -> None:
        self.folder = folder
        self.plan = plan
        self.done: dict[int, Account] = {}
        self.answered = 0
        self.faulty = 0
        self.size = 0

    def begin(self, *, restart: bool) -> None:
        """Make the folder, or take up what an earlier run of the same plan left in it.

        Raises
        ------
        WordedError
            Where the parts of another run are in it, or it cannot be written into.
        """
        if restart and self.folder.is_dir():
            shutil.rmtree(self.folder)
        make_folder(self.folder)
        file = self.folder / PLAN
        if not file.exists():
            write_whole(file, json.dumps(self.plan, indent=1), replace=True)
            return
        kept = kept_plan(self.folder)
        other = sorted(name for name in self.plan if kept.get(name) != self.plan[name])
        if other:
            changed = Listed(tuple(map(Given, other)))
            raise WordedError(
                message("triage-other-run", folder=given(self.folder), changed=changed)
            )
        for account in self._accounts():
            self._count(account)

    def keep(self, block: Block, judged: Judged) -> None:
        """Write what became of a block; the account is written last."""
        data = _parquet(judged)
        write_whole(self._file(block.number, "parquet"), data, replace=True)
        problems = [asdict(one) for one in judged.problems]
        faulty = len({one.row for one in judged.problems if one.kind == FAULT})
        account = Account(
            number=block.number,
            start=block.start,
            end=block.end,
            next_row=block.next_row,
            answered=judged.table.num_rows,
            faulty=faulty,
            bytes=len(data),
        )
        told = json.dumps({"account": asdict(account), "problems": problems})
        write_whole(self._file(block.number, "json"), told, replace=True)
        self._count(account)

    def tables(self) -> Iterator[tuple[pa.Table, tuple[Problem, ...]]]:
        """What became of each block, in the order of the file."""
        import pyarrow.parquet as pq

        for number in sorted(self.done):
            table = pq.read_table(self._file(number, "parquet"), use_threads=False)
            told = json.loads(self._file(number, "json").read_text(encoding="utf-8"))
            yield table, tuple(Problem(**one) for one in told["problems"])

    def remove(self) -> None:
        """Take the parts away, once the result is whole."""
        shutil.rmtree(self.folder, ignore_errors=True)

    def _accounts(self) -> Iterator[Account]:
        """The blocks that are there whole; one that is cut off counts as not done."""
        for file in sorted(self.folder.glob("[0-9]*.json")):
            try:
                told = json.loads(file.read_text(encoding="utf-8"))
                account = Account(**told["account"])
                is_whole = self._file(account.number, "parquet").stat().st_size == account.bytes
            except (OSError, ValueError, KeyError, TypeError):
                continue
            if is_whole:
                yield account

    def _count(self, account: Account) -> None:
        self.done[account.number] = account
        self.answered += account.answered
        self.faulty += account.faulty
        self.size += account.size

    def _file(self, number: int, ending: str) -> Path:
        return self.folder / f"{number:08}.{ending}"


def kept_plan(folder: Path) -> dict[str, Any]:
    """The plan of the run whose parts are in a folder; empty where there are none."""
    try:
        plan = json.loads((folder / PLAN).read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return plan if isinstance(plan, dict) else {}


def counted(table: pa.Table, column: str) -> Counter[str]:
    """How often each text stands in a column; codes in one cell are counted one by one."""
    import pyarrow.compute as pc

    cells = pc.list_flatten(pc.split_pattern(table.column(column).drop_null(), JOINED))
    found = pc.value_counts(cells).to_pylist()
    return Counter({one["values"]: one["counts"] for one in found if one["values"]})


def _parquet(judged: Judged) -> bytes:
    import pyarrow as pa
    import pyarrow.parquet as pq

    table = judged.table
    if judged.keys:
        table = table.append_column(KEY_COLUMN, pa.array(judged.keys, pa.uint64()))
    stream = pa.BufferOutputStream()
    pq.write_table(table, stream, compression="zstd")
    return bytes(stream.getvalue())
