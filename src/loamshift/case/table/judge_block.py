"""A block of rows judged: an outcome for each row, or what is wrong with it."""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING, Final

from loamshift.case.table.block import REMARK, Block, HeldBack, Problem, Unreadable
from loamshift.case.table.equal_rows import EqualRows, told_by
from loamshift.case.table.judge_alike import judge_alike
from loamshift.case.table.open_table import Columns
from loamshift.case.table.outcome_table import Result, table_of
from loamshift.case.table.planned import PlannedBed, foresee, plan_apart, plan_of, planned_bed
from loamshift.case.table.row_case import block_rows, case_of, cell_text
from loamshift.core.loops import PLAIN, Loops
from loamshift.domain.case import Case
from loamshift.domain.message import Given, message
from loamshift.errors import CaseError, InputError
from loamshift.report.messages import say
from loamshift.report.messages.refusal import mend_text, problem_text, refusal
from loamshift.report.words import Words
from loamshift.services.many.outcome import Outcome
from loamshift.services.many.row import (
    outcome_of_bed,
    outcome_of_bed_ahead,
    outcome_of_planned_bed,
)

if TYPE_CHECKING:
    import pyarrow as pa

_SEED_BITS: Final = 31

Answering = Callable[[Case, str], Outcome]
"""Works out one row by its case and its key."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ahead:
    """How to forecast each row: members of the ensemble and years from today."""

    members: int
    years: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """What is the same for every row of a run: small, as it goes to other processes.

    ``today`` where a row names no day; ``seed`` of the run, from which each row's own is made;
    ``compiled`` where there are rows enough that machine code is worth compiling; ``device`` where
    forecasts of plans that rows bring are worked out, ``cpu`` or ``cuda``.
    """

    columns: Columns
    today: date
    seed: int
    ahead: Ahead | None
    words: Words
    compiled: bool = False
    device: str = "cpu"


@dataclass(frozen=True, slots=True, kw_only=True)
class Judged:
    """What became of a block: its answers as a table, what is wrong, and the keys of its rows."""

    table: pa.Table
    problems: tuple[Problem, ...]
    keys: tuple[int, ...]
    """The key of each answered row as a number, by which rows with the same key are found."""


def judge_block(block: Block, order: Order, equal: EqualRows | None = None) -> Judged:
    """Every row of a block: an outcome, or a problem; none stops another.

    Parameters
    ----------
    equal
        Rows of earlier blocks of the run, to which those of this one are added; None for none.

    Notes
    -----
    Nothing but the row and the order decides its outcome: neither its block, its process nor its
    neighbours.
    """
    rows: list[int] = []
    outcomes: list[Outcome] = []
    places: list[int] = []
    problems = [_unreadable(one, order.words) for one in block.unreadable]
    problems += [_held_back(one, order.words) for one in block.held_back]
    answering = _answering(order)
    held = list(block_rows(block, order.columns))
    equal = EqualRows() if equal is None else equal
    told = [told_by(values, order.today) for *_, values in held] if order.ahead is None else []
    alike = _alike(held, told, order, equal)
    waiting: list[PlannedBed] = []
    for place, (row, key, values) in enumerate(held):
        known = alike.get(place) or (equal.known(told[place], key) if told else None)
        own, planned = plan_apart(values)
        way = answering
        if planned:
            way = _awaiting(own, planned, order, waiting, place=len(outcomes))
        found = known or _answered(row, key, own, order, way)
        if isinstance(found, Outcome):
            if told and told[place] not in equal:
                equal.keep(told[place], found)
            rows.append(row)
            outcomes.append(found)
            places.append(place)
        else:
            problems += found
    if waiting:
        problems += _foresee(waiting, rows, outcomes, places, order)
    carried = {
        heading: [cell_text(block.cells.column(heading)[n].as_py()) for n in places]
        for heading in order.columns.carried
    }
    result = Result(rows=rows, outcomes=outcomes, carried=carried)
    return Judged(
        table=table_of(
            result,
            forecast=order.ahead is not None,
            planned=order.columns.has_plans,
            words=order.words,
        ),
        problems=tuple(sorted(problems, key=lambda one: one.row)),
        keys=tuple(number_of(one.key) for one in outcomes) if order.columns.key else (),
    )


def row_seed(key: str, seed: int) -> int:
    """The seed of a row: from its key and the seed of the run, and from nothing else."""
    digest = hashlib.sha256(f"{seed}\x00{key}".encode()).digest()
    return int.from_bytes(digest[:8], "big") >> (64 - _SEED_BITS)


def number_of(key: str) -> int:
    """A key as a number of 64 bits; two keys that differ share one once in 10^19."""
    return int.from_bytes(hashlib.blake2b(key.encode(), digest_size=8).digest(), "big")


def _alike(
    held: Sequence[tuple[int, str, Mapping[str, object]]],
    told: Sequence[bytes],
    order: Order,
    equal: EqualRows,
) -> dict[int, Outcome]:
    """The rows that can be judged from columns, where no forecast is asked for.

    Of rows that tell the same only the first is; one that was met in an earlier block is not.
    """
    if order.ahead is not None:
        return {}
    first = {one: place for place, one in reversed(list(enumerate(told)))}
    places = [
        place for one, place in sorted(first.items(), key=lambda pair: pair[1]) if one not in equal
    ]
    rows = [(held[place][1], held[place][2]) for place in places]
    found = judge_alike(rows, today=order.today, loops=_loops(order))
    return {places[number]: outcome for number, outcome in found.items()}


def _loops(order: Order) -> Loops:
    """Machine code where a run is long; its answers are the same, and compiling takes a while."""
    if not order.compiled:
        return PLAIN
    from loamshift.core.many_loops import COMPILED  # loads the compiler

    return COMPILED


def _answering(order: Order) -> Answering:
    """How one row is worked out: by the ensemble where one is asked for."""
    ahead = order.ahead
    if ahead is None:
        loops = _loops(order)
        return lambda case, key: outcome_of_bed(case, key=key, loops=loops)

    def foreseen(case: Case, key: str) -> Outcome:
        from loamshift.core.many_loops import COMPILED  # loads the compiler, as forecasts do

        return outcome_of_bed_ahead(
            case,
            key=key,
            members=ahead.members,
            seed=row_seed(key, order.seed),
            years=ahead.years,
            loops=COMPILED,
        )

    return foreseen


def _awaiting(
    values: Mapping[str, object],
    planned: Mapping[str, object],
    order: Order,
    waiting: list[PlannedBed],
    *,
    place: int,
) -> Answering:
    """How a row with a plan is worked out: judged now, its plan forecast with others later."""

    def judged(case: Case, key: str) -> Outcome:
        plan = plan_of(case, values, planned)
        bed = planned_bed(case, plan, place=place, seed=row_seed(key, order.seed))
        outcome = outcome_of_planned_bed(case, plan, key=key, loops=_loops(order))
        if bed is not None:
            waiting.append(bed)
        return outcome

    return judged


def _foresee(
    waiting: Sequence[PlannedBed],
    rows: list[int],
    outcomes: list[Outcome],
    places: list[int],
    order: Order,
) -> list[Problem]:
    """Put the forecasts of plans into the outcomes; rows that have none for a fault are told of."""
    ahead = order.ahead
    assert ahead is not None
    found = foresee(
        waiting, outcomes, members=ahead.members, years=ahead.years, device=order.device
    )
    problems = []
    for place, one in sorted(found.items(), reverse=True):
        if isinstance(one, Outcome):
            outcomes[place] = one
            continue
        said = refusal(one, order.words)
        key = outcomes[place].key
        problems.append(Problem(row=rows[place], key=key, path="", given="", problem=said))
        del rows[place], outcomes[place], places[place]
    return problems


def _answered(
    row: int, key: str, values: Mapping[str, object], order: Order, answering: Answering
) -> Outcome | list[Problem]:
    try:
        return answering(case_of(key, values, today=order.today), key)
    except CaseError as error:
        return [
            Problem(
                row=row,
                key=key,
                path=fault.path,
                given=fault.given,
                problem=problem_text(fault, order.words),
                mend=mend_text(fault, order.words),
            )
            for fault in error.faults
        ]
    except InputError as error:
        said = refusal(error, order.words)
        return [Problem(row=row, key=key, path="", given="", problem=said)]
    except Exception as error:
        ours = message("table-row-our-fault", error=Given(type(error).__name__))
        return [Problem(row=row, key=key, path="", given="", problem=say(ours, order.words))]


def _unreadable(one: Unreadable, words: Words) -> Problem:
    return Problem(row=one.row, key="", path="", given=one.given, problem=say(one.said, words))


def _held_back(one: HeldBack, words: Words) -> Problem:
    said = say(message("table-row-held", given=Given(one.given)), words)
    return Problem(
        row=one.row, key=one.key, path=one.path, given=one.given, problem=said, kind=REMARK
    )
