"""The sums of the yearly ledger: one line of it, and the net of all."""

from __future__ import annotations

from collections.abc import Mapping

from loamshift.domain.message import Prose, message, prose
from loamshift.domain.own_sum import OwnSum, SumStep, SumUnit
from loamshift.services.own_sum import inputs as of
from loamshift.services.own_sum.ledger_lines import ledger_steps
from loamshift.services.own_sum.opened import OpenedBed


def line_sum(bed: OpenedBed, key: str, place: int) -> OwnSum:
    """One line of the ledger.

    Parameters
    ----------
    place
        Which line, from 0 [index].
    """
    ledger = bed.answer.ledger
    assert ledger is not None
    name, steps = list(ledger_steps(bed).items())[place]
    return OwnSum(
        key=key,
        title=message("why-sum-line-of-ledger", line=name),
        steps=steps,
        answer_value=ledger.lines[place].value,
        sure=prose(message("why-sure-ledger", line=name)),
        narrow=narrowing_line(bed, name),
        source_keys=_sources(steps),
    )


def net_sum(bed: OpenedBed, key: str) -> OwnSum:
    """All lines of the ledger together."""
    ledger = bed.answer.ledger
    assert ledger is not None
    lines = ledger_steps(bed)
    steps = [step for each in lines.values() for step in each]
    steps.append(sum_of_lines(lines))
    return OwnSum(
        key=key,
        title=message("why-sum-net"),
        steps=tuple(steps),
        answer_value=ledger.net,
        sure=prose(message("why-sure-ledger", line=widest_line(lines))),
        narrow=narrowing_line(bed, widest_line(lines)),
        source_keys=_sources(tuple(steps)),
    )


def sum_of_lines(lines: Mapping[str, tuple[SumStep, ...]]) -> SumStep:
    """The step that adds lines up [mmolc/m2/yr]."""
    inputs = tuple(
        of.before(steps[-1], message("why-in-line", line=name)) for name, steps in lines.items()
    )
    return SumStep(
        says=message("why-step-net"),
        symbol="net",
        value=sum(one.value for one in inputs),
        unit=SumUnit.MMOLC_M2,
        formula="{net} = " + (" + ".join(f"{{{one.symbol}}}" for one in inputs) or "0"),
        inputs=inputs,
    )


def widest_line(lines: Mapping[str, tuple[SumStep, ...]]) -> str:
    """The line that weighs most, as a choice; ``water`` where there is none."""
    return max(lines, key=lambda name: abs(lines[name][-1].value), default="water")


def narrowing_line(bed: OpenedBed, name: str) -> Prose:
    """What would make a line surer, as a sentence; none where nothing cheap would."""
    if name == "water":
        missing = bed.case.water.alkalinity_mg_l_as_caco3 is None
        return prose(message("why-narrow-water", missing="yes" if missing else "no"))
    if name in ("leaching", "washed-out", "air"):
        return prose(message("why-narrow-yearly-test"))
    if name == "humus" and bed.case.bed.before_years is None:
        return prose(message("why-narrow-humus"))
    if name == "free-lime":
        return prose(message("why-narrow-lime-line"))
    return Prose()


def _sources(steps: tuple[SumStep, ...]) -> tuple[str, ...]:
    keys = [one.source_key for step in steps for one in step.inputs if one.source_key]
    return tuple(dict.fromkeys(keys))
