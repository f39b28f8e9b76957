"""One bed tested more than once: doubles, jumps, and samples from another depth."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from itertools import pairwise
from typing import Final

from loamshift.case.intake.keys import DEPTH, PH, PH_METHOD
from loamshift.case.intake.proposal import Finding, Place
from loamshift.case.intake.rows import Filled
from loamshift.domain.decision import Severity
from loamshift.domain.message import Given, message
from loamshift.domain.message import ph as ph_of

DOUBLES_KEY: Final = "duplicates: keep"
KEPT: Final = ("first", "last", "both", "none")
JUMP_PH: Final = 1.0
"""A change of more than this between two tests is asked about [pH]."""
_FALL: Final = 0.75
"""P, K and organic matter all below this share of the earlier test: a deeper sample is likely."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Earlier:
    """What a bed read before: pH, its method and its day."""

    ph: float
    method: str
    on: date | None


@dataclass(frozen=True, slots=True)
class _Test:
    filled: Filled
    place: int

    @property
    def on(self) -> date | None:
        days = self.filled.days.get("date_sampled")
        return days[self.place] if days else None

    @property
    def ph(self) -> float | None:
        values = self.filled.values.get(PH)
        value = values[self.place] if values else None
        return float(str(value)) if value is not None else None

    @property
    def method(self) -> str:
        values = self.filled.values.get(PH_METHOD)
        return str(values[self.place]) if values and values[self.place] else "unknown"

    @property
    def depth(self) -> object:
        values = self.filled.values.get(DEPTH)
        return values[self.place] if values else None

    @property
    def where(self) -> Place:
        return Place(sheet=self.filled.table.sheet, row=self.filled.table.rows[self.place])

    @property
    def name(self) -> Given:
        return Given(self.filled.names[self.place])

    def figure(self, key: str) -> float | None:
        column = next((c for c in self.filled.columns if c.key == key), None)
        return None if column is None else float(column.read.values[self.place])


def history(
    tables: Sequence[Filled],
    earlier: Mapping[str, Earlier] | None = None,
    *,
    keep: str = "",
) -> Iterator[Finding]:
    """Findings about samples of the same name, in the file and before it.

    Of samples with the same name, day and depth none enters a case before somebody has chosen.

    Parameters
    ----------
    earlier
        The last test of beds by their names.
    keep
        Which one of doubles is right: ``first``, ``last``, ``both``; empty where nobody has said.
    """
    tests: dict[str, list[_Test]] = {}
    for filled in tables:
        for place, name in enumerate(filled.names):
            tests.setdefault(name.casefold(), []).append(_Test(filled, place))
    several = [one for one in tests.values() if len(one) > 1]
    doubles: list[_Test] = []
    jumps: list[tuple[_Test, Earlier]] = []
    deeper: list[_Test] = []
    for group in several:
        alike: dict[object, list[_Test]] = {}
        for test in group:
            alike.setdefault((test.on, test.depth), []).append(test)
        for same in alike.values():
            doubles += same[1:]
            _leave_out(same, keep)
        dated = sorted((t for t in group if t.on is not None), key=lambda t: t.on or date.min)
        for before, after in pairwise(dated):
            if before.on == after.on or before.depth != after.depth:
                continue
            if before.ph is not None and _jumps(before.ph, after):
                jumps.append((after, Earlier(ph=before.ph, method=before.method, on=before.on)))
            if _all_fell(before, after):
                deeper.append(after)
    for name, test_before in (earlier or {}).items():
        for test in tests.get(name.casefold(), ())[:1]:
            if _jumps(test_before.ph, test):
                jumps.append((test, test_before))
    if doubles:
        yield _duplicates(doubles, asked=keep not in KEPT)
    for test, was in jumps[:20]:
        yield _jump(test, was)
    if deeper:
        yield Finding(
            code="deeper-sample",
            severity=Severity.CAUTION,
            said=message("intake-deeper-sample", sample=deeper[0].name, count=len(deeper)),
            places=tuple(test.where for test in deeper[:5]),
            count=len(deeper),
        )


def _jumps(before: float, after: _Test) -> bool:
    return after.ph is not None and abs(after.ph - before) > JUMP_PH


def _all_fell(before: _Test, after: _Test) -> bool:
    for keys in (("p", "p2o5"), ("k", "k2o"), ("om", "oc")):
        pairs = [(before.figure(key), after.figure(key)) for key in keys]
        if not any(a is not None and b is not None and b < _FALL * a for a, b in pairs):
            return False
    return True


def _jump(test: _Test, was: Earlier) -> Finding:
    season = bool(was.on and test.on and 2 <= abs(was.on.month - test.on.month) <= 10)
    methods = was.method != test.method
    return Finding(
        code="jump",
        severity=Severity.CAUTION,
        said=message(
            "intake-jump",
            sample=test.name,
            before=ph_of(was.ph),
            after=ph_of(test.ph or 0.0),
            on=was.on,
            why="method" if methods else "season" if season else "other",
        ),
        places=(test.where,),
    )


def _leave_out(same: Sequence[_Test], keep: str) -> None:
    if len(same) < 2 or keep == "both":
        return
    kept = {"first": same[:1], "last": same[-1:]}.get(keep, same[:0])
    for test in same:
        if test not in kept:
            test.filled.left_out.add(test.place)


def _duplicates(doubles: Sequence[_Test], *, asked: bool) -> Finding:
    return Finding(
        code="duplicate",
        severity=Severity.BLOCK if asked else Severity.INFO,
        said=message("intake-duplicate", sample=doubles[0].name, count=len(doubles)),
        question=message("intake-ask-duplicate") if asked else None,
        key=DOUBLES_KEY if asked else "",
        choices=KEPT if asked else (),
        places=tuple(test.where for test in doubles[:5]),
        count=len(doubles),
    )
