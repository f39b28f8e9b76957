"""The sum of the line of the ledger that humus rotting in a bed makes."""

from __future__ import annotations

from typing import Final

from loamshift.domain.message import message
from loamshift.domain.own_sum import SumInput, SumStep, SumUnit
from loamshift.services.belief.humus import (
    CARBON_NITROGEN,
    LABILE,
    LABILE_RATE,
    SLOW_RATE,
    YEARS,
    humus_history,
    humus_rows,
)
from loamshift.services.own_sum import inputs as of
from loamshift.services.own_sum.opened import OpenedBed
from loamshift.services.upkeep.humus import humus_year

_NAMES: Final = {
    LABILE: ("f", "why-in-humus-labile"),
    LABILE_RATE: ("k", "why-in-humus-rate"),
    CARBON_NITROGEN: ("R", "why-in-humus-ratio"),
    SLOW_RATE: ("l", "why-in-humus-slow"),
    YEARS: ("y", "why-in-humus-years"),
}


def humus_steps(bed: OpenedBed, held_ph: float) -> tuple[SumStep, ...]:
    """The sum of humus that rots in the coming year; none where none does beyond the use.

    Parameters
    ----------
    held_ph
        Where it is held [pH in water].
    """
    year, history = humus_year(bed.context, held_ph=held_ph), humus_history(bed.context)
    if year is None or history is None:
        return ()
    nitrogen = SumStep(
        says=message("why-step-humus-nitrogen"),
        symbol="N",
        value=year.nitrogen_mmol_kg,
        unit=SumUnit.MMOLC_KG,
        inputs=(of.carbon(bed), *_rows(bed)),
    )
    base = SumStep(
        says=message("why-step-humus-base"),
        symbol="h",
        value=year.base_mol_mol,
        unit=SumUnit.NONE,
        inputs=(
            of.fixed("pHh", message("why-in-held"), held_ph, SumUnit.PH),
            of.parameter("z", "column.organic_zero_ph", SumUnit.PH),
        ),
    )
    mass = of.mass_step(bed)
    washed = of.named(
        of.parameter("r", f"ledger.{year.unreturned_row}"), message("why-in-humus-washed")
    )
    line = SumStep(
        says=message("why-step-humus"),
        symbol="H",
        value=year.acid_mmolc_m2,
        unit=SumUnit.MMOLC_M2,
        formula="{H} = {N} × ({r} − {h}) × {m}",
        inputs=(
            of.before(nitrogen, message("why-in-humus-nitrogen")),
            washed,
            of.before(base, message("why-in-humus-base")),
            of.before(mass, message("why-in-mass")),
        ),
    )
    return (nitrogen, base, mass, line)


def _rows(bed: OpenedBed) -> tuple[SumInput, ...]:
    history = humus_history(bed.context)
    assert history is not None
    found = []
    for what, row in humus_rows(history).items():
        symbol, name = _NAMES[what]
        at = of.parameter(
            symbol, f"humus.{row}", path="bed.before_years" if what == YEARS else "",
            assumed=what == YEARS,
        )  # fmt: skip
        found.append(of.named(at, message(name)))
    if history.years is not None:
        since = message("why-in-humus-years")
        found.append(of.said("y", since, history.years, SumUnit.YEARS, "bed.before_years"))
    return tuple(found)
