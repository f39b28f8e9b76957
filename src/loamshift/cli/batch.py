"""Many cases in one run: which files they are, what their letters are called, and the run."""

from __future__ import annotations

import gc
import os
import sys
import time
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Final

from loamshift.cli.answering import Wish
from loamshift.cli.batch_letters import (
    End,
    Errand,
    Order,
    Outcome,
    printable,
    with_line,
    write_letters,
)
from loamshift.cli.batch_lines import Listing, heading
from loamshift.cli.batch_progress import Reached, progress
from loamshift.cli.files import make_folder
from loamshift.cli.letter_forms import Form, Paper
from loamshift.cli.run import ANSWERED, INTERRUPTED, TO_MEND
from loamshift.domain.message import Message, message
from loamshift.domain.worded_error import WordedError, given

if TYPE_CHECKING:
    from loamshift.report.words import Words

ENDING: Final = ".toml"


_START_S: Final = 1.5
"""A process is ready for its first case after so long, at the least [s]."""
_WORTH: Final = 1.5
"""Processes are started where they save this many times what starting them takes."""


def case_files(given: Sequence[Path]) -> list[Path]:
    """The case files meant: files as given, folders by the case files in them.

    Returns
    -------
    list of Path
        Each file once, those of a folder in the order of their names.

    Raises
    ------
    WordedError
        Where a folder cannot be read or holds no case file.
    """
    found: dict[Path, Path] = {}
    for path in given:
        for file in _cases_of(path) if path.is_dir() else [path]:
            found.setdefault(file.absolute(), file)
    return list(found.values())


def _cases_of(folder: Path) -> list[Path]:
    try:
        files = [path for path in folder.iterdir() if path.suffix.casefold() == ENDING]
    except OSError as error:
        why = given(error.strerror or error)
        raise WordedError(message("cli-cannot-read", path=given(folder), why=why)) from error
    cases = [path for path in files if not path.name.startswith(".") and path.is_file()]
    if not cases:
        raise WordedError(message("cli-no-case-files", path=given(folder)))
    return sorted(cases, key=lambda path: (path.name.casefold(), path.name))


def errands(cases: Sequence[Path], out: Path | None) -> list[Errand]:
    """A name for the letters of every case; no two cases share one.

    Parameters
    ----------
    out
        Folder for all letters; None puts each beside its case.

    Returns
    -------
    list of Errand
        In the order of the cases. Cases of one name get their folder's name in front, and a
        number where that does not tell them apart.
    """
    stems = [(out if out is not None else case.parent) / case.stem for case in cases]
    twice = Counter(map(_folded, stems))
    in_one = len({case.parent for case in cases}) == 1
    named: list[Errand] = []
    taken: set[str] = {_folded(stem) for stem in stems if twice[_folded(stem)] == 1}
    for case, stem in zip(cases, stems, strict=True):
        if twice[_folded(stem)] > 1:
            stem = _free(stem, case, taken)
            taken.add(_folded(stem))
        name = printable(case.name if in_one else str(case))
        named.append(Errand(case=case, stem=stem, name=name))
    return named


def _free(stem: Path, case: Path, taken: set[str]) -> Path:
    folder = case.absolute().parent.name
    name = f"{folder}-{stem.name}" if folder else stem.name
    trial, number = stem.parent / name, 1
    while _folded(trial) in taken:
        number += 1
        trial = stem.parent / f"{name}-{number}"
    return trial


def _folded(path: Path) -> str:
    """Two paths that fold alike may be one file on some machines."""
    return str(path.absolute()).casefold()


def advise_many(
    cases: Sequence[Path],
    wish: Wish,
    *,
    forms: Sequence[Form],
    out: Path | None,
    paper: Paper | None,
    jobs: int | None = None,
    listing: Listing = Listing.TABLE,
) -> tuple[int, list[Path]]:
    """Answer every case, write its letters, and print a summary.

    Parameters
    ----------
    out
        Folder for all letters; None puts each beside its case.
    paper
        Of a PDF; None follows the reader's units.
    jobs
        Cases to answer at a time; None takes every core where that is quicker [count].
    """
    from loamshift.cli.show import warn, words_for

    gc.enable()
    if out is not None:
        make_folder(out)
    todo = errands(cases, out)
    read = frozenset(case.absolute() for case in cases)
    order = Order(wish=wish, forms=tuple(forms), paper=paper, listing=listing, never=read)
    batch = Batch(todo, order)
    end = batch.run(jobs)
    reached = batch.in_order()
    files = [path for outcome in reached for path in outcome.files]
    reader = words_for(wish.units, wish.words)
    code = max((outcome.code for outcome in reached), default=ANSWERED)
    if listing is Listing.JSON:
        return _ended(end, code, batch, reader), files
    if listing is Listing.TABLE:
        _show_table(reached, todo, out, reader)
    sys.stdout.flush()
    for outcome in reached:
        if outcome.told:
            warn(f"\n{outcome.told}")
    if end is not None:
        warn("")
    return _ended(end, code, batch, reader), files


def _show_table(
    reached: Sequence[Outcome], todo: Sequence[Errand], out: Path | None, reader: Words
) -> None:
    """A line for each case, and how many were answered."""
    from loamshift.cli.show import show, worded
    from loamshift.report.summary import summary_letter

    where = (
        message("cli-letters-beside")
        if out is None
        else message("cli-letters-in", path=given(printable(str(out))))
    )
    rows = [outcome.row for outcome in reached]
    lying = worded(where, reader) if any(outcome.files for outcome in reached) else ""
    show(summary_letter(rows, unreached=len(todo) - len(rows), where=lying, words=reader))


def _ended(end: End | None, code: int, batch: Batch, reader: Words) -> int:
    """The exit code of the whole; what ended it early is told."""
    from loamshift.cli.show import tell

    if end is End.STOPPED:
        tell(message("cli-batch-stopped"), reader)
        return INTERRUPTED
    if end is End.NO_ROOM:
        tell(_no_room(written=batch.written, total=batch.total), reader)
        return max(code, TO_MEND)
    return code


def _no_room(*, written: int, total: int) -> Message:
    return message("cli-batch-no-room", written=written, total=total, left=total - written)


class Batch:
    """The run over the cases: what became of each so far, and how far it is."""

    def __init__(self, todo: Sequence[Errand], order: Order) -> None:
        self._todo = todo
        self._order = order
        self.total = len(todo)
        self._outcomes: dict[int, Outcome] = {}
        self._printed = 0
        self.written = 0
        """Cases whose letters are written [count]."""

    def in_order(self) -> list[Outcome]:
        """What became of the cases that were begun, in the order of the cases."""
        return [self._outcomes[place] for place in sorted(self._outcomes)]

    def run(self, jobs: int | None) -> End | None:
        """Answer all cases, some at a time [count]; what ended it early is returned.

        The first case is always answered in this process: machine code that is not there yet is
        then made once, and a word about it said once. With the second it tells what a case and
        what a start costs on this machine with these forms.
        """
        from loamshift.cli.show import say

        if above := heading(self._order.listing):
            say(above)
        try:
            with progress(len(self._todo)) as bar:
                return self._answer(jobs, bar)
        except KeyboardInterrupt:
            return End.STOPPED

    def _answer(self, jobs: int | None, bar: Callable[[Reached], None]) -> End | None:
        def tell(place: int, outcome: Outcome) -> None:
            if outcome.end is End.STOPPED and not outcome.row.fault:
                return  # nothing of it was written: as if it had not been begun
            self._outcomes[place] = with_line(outcome, self._todo[place], self._order.listing)
            self._print()
            self.written += outcome.row.decision is not None
            self._show(bar, self._todo[place])

        took_s: list[float] = []
        for place, errand in enumerate(self._todo):
            spread = workers_for(len(self._todo) - place, took_s, jobs=jobs)
            if spread > 1:
                from loamshift.cli.batch_workers import answer_in_workers

                rest = dict(enumerate(self._todo[place:], start=place))
                return answer_in_workers(rest, self._order, jobs=spread, tell=tell)
            self._show(bar, errand)
            begun_s = time.perf_counter()
            outcome = write_letters(errand, self._order)
            took_s.append(time.perf_counter() - begun_s)
            tell(place, outcome)
            if outcome.end is not None:
                return outcome.end
        return None

    def _print(self) -> None:
        """Print the lines for a program as far as the cases are through, in their order."""
        if self._order.listing is Listing.TABLE:
            return
        from loamshift.cli.show import say

        while (outcome := self._outcomes.get(self._printed)) is not None:
            say(outcome.line)
            sys.stdout.flush()
            self._outcomes[self._printed] = replace(outcome, line="")
            self._printed += 1

    def _show(self, bar: Callable[[Reached], None], errand: Errand) -> None:
        bar(Reached(done=len(self._outcomes), written=self.written, name=errand.name))


def workers_for(cases: int, took_s: Sequence[float], *, jobs: int | None) -> int:
    """How many processes to spread the cases that are left over; 1 for none but this.

    Parameters
    ----------
    cases
        Cases that are left [count].
    took_s
        What each case so far took in this process; the first one loaded everything [s].
    jobs
        What was asked for; None asks for what is quickest [count].

    Returns
    -------
    int
        Processes [count].
    """
    if not took_s or cases < 2:
        return 1
    if jobs is not None:
        return min(jobs, cases)
    if len(took_s) < 2:
        return 1
    spread = min(cores(), cases)
    start_s = max(took_s[0] - took_s[1], _START_S)
    saved_s = cases * min(took_s[1:]) * (1.0 - 1.0 / spread)
    return spread if saved_s > _WORTH * start_s else 1


def cores() -> int:
    """Cores that this process may use [count]."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1
