"""Letters for some rows of a long table, chosen by their keys or by their verdict."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Final

from loamshift.cli.advise import read_forms
from loamshift.cli.answering import Answered, Wish, answer_for
from loamshift.cli.batch_letters import printable
from loamshift.cli.files import make_folder, write_whole
from loamshift.cli.letter_forms import CHARTS, Form, Paper, chart_content, letter_content
from loamshift.cli.show import tell
from loamshift.domain.answer import Decision
from loamshift.domain.message import Given, Listed, message
from loamshift.domain.worded_error import WordedError, given

if TYPE_CHECKING:
    from loamshift.cli.triage_run import Run
    from loamshift.domain.case import Case

MOST_LETTERS: Final = 1_000
"""Letters of one run; more are work for another one [count]."""
_LONGEST_NAME: Final = 60


def write_chosen(
    run: Run, folder: Path, wanted: Sequence[str], *, forms: list[str] | None, paper: Paper | None
) -> None:
    """Write the letters of the rows whose key or verdict was named.

    Raises
    ------
    WordedError
        Where too many were asked for, or the folder cannot be written into.
    """
    kinds = read_forms(forms, as_json=False)
    rows, missed = _chosen(run, wanted)
    if missed:
        tell(message("triage-no-such-key", keys=Listed(tuple(map(Given, missed)), either=True)))
    if len(rows) > MOST_LETTERS:
        raise WordedError(message("triage-letters-many", count=len(rows), most=MOST_LETTERS))
    make_folder(folder)
    taken: set[str] = set()
    for key, case in _cases(run, rows):
        stem = _stem(key, taken)
        for name, content in _made(run, case, key, stem, kinds, paper):
            write_whole(folder / name, content, replace=True)
    tell(message("triage-letters-written", count=len(taken), folder=given(folder)))


def _chosen(run: Run, wanted: Sequence[str]) -> tuple[frozenset[int], tuple[str, ...]]:
    """Numbers of the rows that were meant, and what was named and is nowhere."""
    verdicts = {one.value for one in Decision} & set(wanted)
    found: set[int] = set()
    seen: set[str] = set()
    for row, key, verdict in _verdicts(run.paths.out):
        if key in wanted or verdict in verdicts:
            found.add(row)
            seen |= {key, verdict}
    missed = tuple(one for one in wanted if one not in seen and one not in verdicts)
    return frozenset(found), missed


def _verdicts(out: Path) -> Iterator[tuple[int, str, str]]:
    """Row, key and verdict of a result, as it was written."""
    from loamshift.case.table.open_table import open_table

    table = open_table(out)
    names = ("row", "key", "verdict")
    for block in table.blocks(table.begin, used=names, rows=10_000):
        for row, key, verdict in zip(
            *(block.cells[name].to_pylist() for name in names), strict=True
        ):
            yield int(row), str(key).removeprefix("'"), str(verdict)


def _cases(run: Run, rows: frozenset[int]) -> Iterator[tuple[str, Case]]:
    """The cases of some rows, read once more."""
    from loamshift.case.table.planned import plan_apart
    from loamshift.case.table.row_case import block_rows, case_of

    used = run.order.columns.used
    for block in run.table.blocks(run.table.begin, used=used, rows=run.block_rows):
        if rows.isdisjoint(block.rows):
            continue
        for row, key, values in block_rows(block, run.order.columns):
            if row in rows:
                yield key, case_of(key, plan_apart(values)[0], today=run.order.today)


def _made(
    run: Run, case: Case, key: str, stem: str, forms: Sequence[Form], paper: Paper | None
) -> Iterator[tuple[str, str | bytes]]:
    """The files of one letter by their names."""
    from loamshift.case.frozen import FrozenLetter
    from loamshift.case.table.judge_block import row_seed
    from loamshift.report.letter import letter_from_answer
    from loamshift.services.own_sum.margin import margin_sums

    order = run.order
    wish = Wish(years=0)
    if order.ahead is not None:
        seed = row_seed(key, order.seed)
        wish = Wish(members=order.ahead.members, years=order.ahead.years, seed=seed)
    answer = answer_for(case, wish)
    letter = letter_from_answer(answer, case, words=order.words, sums=margin_sums(case, answer))
    done = Answered(case=case, answer=answer, frozen=FrozenLetter(letter, order.words))
    for form in forms:
        if form is Form.JSON:
            yield f"{stem}.json", done.json() + "\n"
        elif form in CHARTS:
            charts: Mapping[str, bytes] = chart_content(done.shown, form)
            yield from ((f"{stem}-{name}", data) for name, data in charts.items())
        else:
            yield f"{stem}.{form.value}", letter_content(form, done.shown, paper=paper)


def _stem(key: str, taken: set[str]) -> str:
    """A name for the letter of a row that no other has, whatever its key holds."""
    plain = re.sub(r"[^\w.-]+", "-", printable(key)).strip("-.")[:_LONGEST_NAME] or "row"
    name, number = plain, 1
    while name.casefold() in taken:
        number += 1
        name = f"{plain}-{number}"
    taken.add(name.casefold())
    return name
