"""The sum of each line of the yearly ledger of a bed."""

from __future__ import annotations

import math
from collections.abc import Callable, Mapping
from typing import Final

from loamshift.core.acidity import NITROGEN_MOL_KG, SULFUR_ACID_MOLC_KG
from loamshift.core.air import G_M2_PER_KG_HA
from loamshift.core.background import background_loads, drained_base_mmolc_m2
from loamshift.core.buffer import buffer_mmolc_kg_ph
from loamshift.core.carbonate import rain_ph
from loamshift.core.ledger import rain_carbonic_acid_mmolc_m2, water_acid_mmolc_m2
from loamshift.core.nitrogen_share import realised_row, unreturned_row
from loamshift.domain.answer import Decision, Direction
from loamshift.domain.case import Feed
from loamshift.domain.message import Given, Message, message
from loamshift.domain.own_sum import Origin, SumInput, SumStep, SumUnit
from loamshift.services.context.air import air_acid, deposition_at
from loamshift.services.context.build_context import WEEKS_PER_MONTH, curve_of, require_soil
from loamshift.services.context.need import carbonate_median_mmolc_kg
from loamshift.services.context.water import (
    anions_mmolc_l,
    anions_row,
    deep_co2_factor,
    water_anions_mmolc_l,
)
from loamshift.services.materials.acid import acid_brought_mmolc_m2
from loamshift.services.materials.feed import present_feed_acid_mmolc_m2
from loamshift.services.materials.free_lime import dissolved_in_a_year_frac
from loamshift.services.own_sum import inputs as of
from loamshift.services.own_sum.humus_line import humus_steps
from loamshift.services.own_sum.opened import OpenedBed, scale_of
from loamshift.services.upkeep.lime_left import lime_left_frac
from loamshift.services.upkeep.sulfur_tail import sulfur_tails_mmolc_m2
from loamshift.tables.air import air_region
from loamshift.tables.model import carbonate_parameters, ledger_parameters
from loamshift.tables.parameters import parameter_values
from loamshift.units import NITROGEN_G_MOL, alkalinity_mmolc_l_from_mg_l_as_caco3

_ACTS: Final = (Decision.GO, Decision.EFFORT, Decision.MEASURE_FIRST)


def held_at_ph(bed: OpenedBed) -> float:
    """Where the ledger holds the bed: the aim where something goes on, else today's pH [pH].

    Returns
    -------
    float
        The aim where something goes on, else the pH of today [pH in water].
    """
    answer, target = bed.answer, bed.context.target
    now = require_soil(bed.context).ph.ph_water
    assert target is not None
    if answer.verdict.decision in _ACTS and answer.dose.direction is not Direction.NONE:
        return target.ph_aim
    if answer.verdict.decision in (Decision.STOP, Decision.ELSEWHERE):
        return now
    return min(max(now, target.ph_low), target.ph_high)


def ledger_steps(bed: OpenedBed) -> Mapping[str, tuple[SumStep, ...]]:
    """The sum of every line of the ledger, as many and in the order as the answer has them.

    Returns
    -------
    mapping
        Name of the line as a choice, and its steps; acid is positive [mmolc/m2/yr].
    """
    made: list[tuple[str, Callable[[OpenedBed], tuple[SumStep, ...]]]] = [
        ("water", _water),
        ("rain", _rain),
        ("air", _air),
        ("leaching", _leaching),
        ("feed", _feed),
        ("tail", _tail),
        ("washed-out", _washed_out),
        ("humus", _humus),
    ]
    found = {name: steps(bed) for name, steps in made}
    others = sum(steps[-1].value for steps in found.values() if steps)
    humus = found.pop("humus")
    found |= {"free-lime": _dissolving(bed, others_mmolc_m2=others), "humus": humus}
    return {
        name: steps
        for name, steps in found.items()
        if steps and (steps[-1].value != 0.0 or name == "water")
    }


def buffering_step(bed: OpenedBed, held_ph: float) -> SumStep:
    """The acid that moves a square metre of this soil by one pH unit where it is held.

    Parameters
    ----------
    held_ph
        Where it is held [pH in water].
    """
    context = bed.context
    slope: float = buffer_mmolc_kg_ph(held_ph, k=scale_of(bed), **curve_of(context))
    per_kg = of.fixed("β", message("why-in-buffering"), slope, SumUnit.MMOLC_KG_PH)
    mass = of.mass_step(bed)
    return SumStep(
        says=message("why-step-per-ph"),
        symbol="Y",
        value=slope * mass.value,
        unit=SumUnit.MMOLC_M2_PH,
        formula="{Y} = {β} × {m}",
        inputs=(per_kg, of.before(mass, message("why-in-mass"))),
    )


def _water(bed: OpenedBed) -> tuple[SumStep, ...]:
    context, water = bed.context, bed.case.water
    depth = context.irrigation_mm_year
    if depth <= 0.0:
        return ()
    name = message("why-in-weekly")
    per_week = context.irrigation_mm_year / (WEEKS_PER_MONTH * len(water.months))
    if water.weekly_mm is not None:
        weekly = of.said("h", name, per_week, SumUnit.MM, "water.weekly")
    else:
        weekly = of.named(
            of.parameter(
                "h", "verdict.assumed_weekly_mm", SumUnit.MM, path="water.weekly", assumed=True
            ),
            name,
        )
    weeks = of.fixed("w", message("why-in-weeks-a-month"), WEEKS_PER_MONTH, SumUnit.NONE)
    months = of.said(
        "M", message("why-in-months"), float(len(water.months)), SumUnit.NONE, "water.months"
    )
    year = SumStep(
        says=message("why-step-water-depth"),
        symbol="D",
        value=depth,
        unit=SumUnit.MM,
        formula="{D} = {h} × {w} × {M}",
        inputs=(weekly, weeks, months),
    )
    alkalinity = _alkalinity(bed)
    charge = alkalinity_mmolc_l_from_mg_l_as_caco3(alkalinity.value)
    strength = SumStep(
        says=message("why-step-alkalinity"),
        symbol="c",
        value=charge,
        unit=SumUnit.MMOLC_L,
        formula="{c} = {A} / 50.04",
        inputs=(alkalinity,),
    )
    line = SumStep(
        says=message("why-step-water"),
        symbol="W",
        value=water_acid_mmolc_m2(alkalinity_mmolc_l=charge, water_mm=depth),
        unit=SumUnit.MMOLC_M2,
        formula="{W} = −{c} × {D}",
        inputs=(
            of.before(strength, message("why-in-charge")),
            of.before(year, message("why-in-water-year")),
        ),
    )
    return (year, strength, line)


def _alkalinity(bed: OpenedBed) -> SumInput:
    name, value = message("why-in-alkalinity"), bed.case.water.alkalinity_mg_l_as_caco3
    if value is not None:
        return of.said("A", name, value, SumUnit.MG_L_CACO3, "water.alkalinity")
    key = "verdict.assumed_alkalinity_mid"
    row = of.parameter("A", key, SumUnit.MG_L_CACO3, path="water.alkalinity", assumed=True)
    return of.named(row, name)


def _rain(bed: OpenedBed) -> tuple[SumStep, ...]:
    place, advice = bed.context.place, parameter_values("advice")
    rain = advice["assumed_rain_mm"] if place is None else sum(place.rain_mm)
    temp = advice["assumed_rain_temp_c"] if place is None else sum(place.air_temp_c) / 12.0
    temp = min(max(temp, 0.0), 40.0)
    params = carbonate_parameters()
    reads = float(rain_ph(p_co2_atm=params.p_co2_air_atm, temp_c=temp, params=params))
    acidity = of.fixed("pHr", message("why-in-rain-ph"), reads, SumUnit.PH)
    step = SumStep(
        says=message("why-step-rain"),
        symbol="K",
        value=rain_carbonic_acid_mmolc_m2(rain_mm=rain, temp_c=temp, params=params),
        unit=SumUnit.MMOLC_M2,
        formula="{K} = 1000 × 10^(−{pHr}) × {N}",
        inputs=(acidity, _of_place(bed, "N", message("why-in-rain"), rain, "assumed_rain_mm")),
    )
    return (step,)


def _of_place(bed: OpenedBed, symbol: str, name: Message, value: float, row: str) -> SumInput:
    place = bed.context.place
    if place is None:
        found = of.parameter(symbol, f"advice.{row}", SumUnit.MM, path="place", assumed=True)
        return of.named(found, name)
    return SumInput(
        symbol=symbol,
        name=name,
        value=value,
        unit=SumUnit.MM,
        origin=Origin.TABLE,
        path="place",
        source_key=place.source_key,
    )


def _air(bed: OpenedBed) -> tuple[SumStep, ...]:
    if bed.context.in_pot:
        return ()
    context = bed.context
    year = context.case.today.year
    falls = deposition_at(context.place, year=year)
    known = falls.region != air_region(latitude=None, longitude=None)

    def fallen(symbol: str, what: str, value: float, unit: SumUnit) -> SumInput:
        name = message("why-in-air", what=what, region=falls.region, year=Given(str(year)))
        return SumInput(
            symbol=symbol,
            name=name,
            value=value,
            unit=unit,
            origin=Origin.TABLE if known else Origin.ASSUMED,
            path="place",
            source_key=falls.source_key,
        )

    step = SumStep(
        says=message("why-step-air"),
        symbol="E",
        value=air_acid(context.place, year=year).mmolc_m2,
        unit=SumUnit.MMOLC_M2,
        formula="{E} = max(0, {a} × {S} − {K} + {r} × {u} × {c} × {N})",
        inputs=(
            of.fixed("a", message("why-in-air-sulfur-acid"), SULFUR_ACID_MOLC_KG, SumUnit.MMOLC_G),
            fallen("S", "sulfur", G_M2_PER_KG_HA * falls.sulfur_kg_ha, SumUnit.G_M2),
            fallen("K", "base", falls.base_mmolc_m2, SumUnit.MMOLC_M2),
            _row("r", "realised_field_frac"),
            _row("u", "unreturned_crop_frac"),
            of.fixed("c", message("why-in-air-nitrogen-acid"), NITROGEN_MOL_KG, SumUnit.MMOLC_G),
            fallen("N", "nitrogen", G_M2_PER_KG_HA * falls.nitrogen_kg_ha, SumUnit.G_M2),
        ),
    )
    return (step,)


def _leaching(bed: OpenedBed) -> tuple[SumStep, ...]:
    context = bed.context
    if context.in_pot:
        return ()
    params, held = ledger_parameters(), held_at_ph(bed)
    rise = min(held, params.background_highest_ph) - params.background_reference_ph
    ratio = min(params.drainage_most, context.drainage_mm_year / params.drainage_reference_mm)
    drained = _drained(bed)
    ph = of.fixed("pHh", message("why-in-held"), held, SumUnit.PH)
    faster = SumStep(
        says=message("why-step-faster"),
        symbol="F",
        value=math.exp(params.background_rise_per_ph * rise)
        * (params.drainage_base + params.drainage_slope * ratio),
        unit=SumUnit.NONE,
        formula="{F} = exp({x} × (min({pHh}, {y}) − {z})) × ({i} + {j} × min({o}, {Q} / {q}))",
        inputs=(
            _row("x", "background_rise_per_ph"),
            ph,
            _row("y", "background_highest_ph"),
            _row("z", "background_reference_ph"),
            _row("i", "drainage_base"),
            _row("j", "drainage_slope"),
            _row("o", "drainage_most"),
            drained,
            _row("q", "drainage_reference_mm"),
        ),
    )
    use = context.land_use.replace(" ", "_")
    load = of.named(
        _row("B", f"background_{use}_mmolc_m2", SumUnit.MMOLC_M2), message("why-in-background")
    )
    given = of.named(
        _row("V", "weathering_mmolc_m2", SumUnit.MMOLC_M2), message("why-in-weathering")
    )
    air = of.named(
        _row("e", f"air_in_{use}_mmolc_m2", SumUnit.MMOLC_M2), message("why-in-air-in-load")
    )
    line = SumStep(
        says=message("why-step-leaching"),
        symbol="U",
        value=background_loads(params)[context.land_use] * faster.value
        - params.weathering_mmolc_m2
        - air.value,
        unit=SumUnit.MMOLC_M2,
        formula="{U} = {B} × {F} − {V} − {e}",
        inputs=(load, of.before(faster, message("why-in-faster")), given, air),
    )
    return (faster, line)


def _row(symbol: str, name: str, unit: SumUnit = SumUnit.NONE) -> SumInput:
    return of.parameter(symbol, f"ledger.{name}", unit)


def _drained(bed: OpenedBed) -> SumInput:
    return SumInput(
        symbol="Q",
        name=message("why-in-drainage"),
        value=bed.context.drainage_mm_year,
        unit=SumUnit.MM,
        origin=Origin.ASSUMED if bed.context.place is None else Origin.TABLE,
        path="place",
        source_key="" if bed.context.place is None else bed.context.place.source_key,
    )


def _feed(bed: OpenedBed) -> tuple[SumStep, ...]:
    feed = bed.case.feed
    if feed is None:
        return ()
    value = present_feed_acid_mmolc_m2(
        feed, in_pot=bed.context.in_pot, land_use=bed.context.nitrogen_use
    )
    if feed.material is not None:
        return (_bought_feed(bed, feed, value),)
    nitrogen, pot = feed.n_g_m2_year or 0.0, bed.context.in_pot
    use = bed.context.nitrogen_use
    stays = _row("s", realised_row(use, in_pot=pot))
    unreturned = _row("l", unreturned_row(use, in_pot=pot))
    given = of.said("n", message("why-in-nitrogen"), nitrogen, SumUnit.G_M2, "feed.n_g_m2_year")
    form = feed.form or ""
    formula, more = {
        "ammonium": ("{s} × ({a} − 1 + {l}) × {n}", (_row("a", "acid_per_nh4_mol_mol"),)),
        "urea": ("{s} × ({a} − 1 + {l}) × {n}", (_row("a", "acid_per_urea_n_mol_mol"),)),
        "ammonium nitrate": (
            "{s} × ({a} / 2 − 1 + {l}) × {n}",
            (_row("a", "acid_per_nh4_mol_mol"),),
        ),
        "nitrate": ("{s} × ({l} − 1) × {n}", ()),
    }.get(form, ("", ()))
    inputs = (stays, given, *more, unreturned)
    step = SumStep(
        says=message("why-step-feed"),
        symbol="Z",
        value=value,
        unit=SumUnit.MMOLC_M2,
        formula=f"{{Z}} = 1000 / {NITROGEN_G_MOL:g} × {formula}" if formula else "",
        inputs=inputs,
    )
    return (step,)


def _bought_feed(bed: OpenedBed, feed: Feed, value: float) -> SumStep:
    assert feed.material is not None
    rate = feed.rate_g_m2 or 0.0
    per_g = acid_brought_mmolc_m2(
        feed.material, rate_g_m2=1.0, in_pot=bed.context.in_pot, land_use=bed.context.nitrogen_use
    )
    return SumStep(
        says=message("why-step-feed"),
        symbol="Z",
        value=value,
        unit=SumUnit.MMOLC_M2,
        formula="{Z} = {v} × {t} × {a}",
        inputs=(
            of.said("v", message("why-in-feed-rate"), rate, SumUnit.G_M2, "feed.rate"),
            of.said(
                "t", message("why-in-feed-times"), float(feed.times), SumUnit.NONE, "feed.times"
            ),
            of.fixed("a", message("why-in-acid-per-gram"), per_g, SumUnit.MMOLC_G),
        ),
    )


def _tail(bed: OpenedBed) -> tuple[SumStep, ...]:
    parts: list[SumInput] = []
    for number, (so_far, later) in enumerate(sulfur_tails_mmolc_m2(bed.context), start=1):
        parts += [
            of.fixed(f"S{number}", message("why-in-acid-by-then"), later, SumUnit.MMOLC_M2),
            of.fixed(f"s{number}", message("why-in-acid-so-far"), so_far, SumUnit.MMOLC_M2),
        ]
    if not parts:
        return ()
    terms = [f"{{S{n}}} − {{s{n}}}" for n in range(1, len(parts) // 2 + 1)]
    step = SumStep(
        says=message("why-step-tail"),
        symbol="T",
        value=sum(
            late.value - early.value for late, early in zip(parts[::2], parts[1::2], strict=True)
        ),
        unit=SumUnit.MMOLC_M2,
        formula="{T} = " + " + ".join(terms),
        inputs=tuple(parts),
    )
    return (step,)


def _washed_out(bed: OpenedBed) -> tuple[SumStep, ...]:
    column, held = parameter_values("column"), held_at_ph(bed)
    step = SumStep(
        says=message("why-step-washed-out"),
        symbol="G",
        value=drained_base_mmolc_m2(
            held,
            drainage_mm=bed.context.drainage_mm_year,
            bicarbonate_mmol2_l2=1000.0
            * 10.0 ** parameter_values("buffer")["bicarbonate_log10_k"]
            * column["flux_pco2_atm"]
            * deep_co2_factor(bed.context.depth_cm),
            bicarbonate_highest_mmolc_l=column["bicarbonate_highest_mmolc_l"],
            anions_mmolc_l=anions_mmolc_l(bed.context),
            suspension_mmolc_l=column["suspension_mmolc_l"],
        ),
        unit=SumUnit.MMOLC_M2,
        inputs=(
            of.fixed("pHh", message("why-in-held"), held, SumUnit.PH),
            _drained(bed),
            of.parameter("x", "column.flux_pco2_atm"),
            *(
                (of.parameter("z", "column.deep_co2_factor"),)
                if deep_co2_factor(bed.context.depth_cm) != 1.0
                else ()
            ),
            of.parameter("y", "column.bicarbonate_highest_mmolc_l", SumUnit.MMOLC_L),
            of.parameter("a", f"column.{_anions_row(bed)}", SumUnit.MMOLC_L),
            *_water_anions(bed),
            of.parameter("c", "column.suspension_mmolc_l", SumUnit.MMOLC_L),
        ),
    )
    return (step,)


def _anions_row(bed: OpenedBed) -> str:
    return anions_row(
        bed.context.land_use, in_pot=bed.context.in_pot, is_fed=bed.case.feed is not None
    )


def _water_anions(bed: OpenedBed) -> tuple[SumInput, ...]:
    """What the watering adds, where it does."""
    added = water_anions_mmolc_l(bed.context)
    name = message("why-in-water-anions")
    return (of.fixed("b", name, added, SumUnit.MMOLC_L),) if added > 0.0 else ()


def _dissolving(bed: OpenedBed, *, others_mmolc_m2: float) -> tuple[SumStep, ...]:
    context = bed.context
    soil = require_soil(context)
    ph = soil.ph.ph_water
    lime_kg = carbonate_median_mmolc_kg(context)
    if lime_kg <= 0.0:
        return ()
    left, share = lime_left_frac(context), dissolved_in_a_year_frac(ph_water=ph)
    plateau = parameter_values("column")["carbonate_plateau_ph"]
    mass, per_ph = of.mass_step(bed), buffering_step(bed, ph)
    others = max(others_mmolc_m2, 0.0)
    room = per_ph.value * max(plateau - ph, 0.0) + others
    step = SumStep(
        says=message("why-step-free-lime"),
        symbol="J",
        value=-min(lime_kg * mass.value * left * share, room),
        unit=SumUnit.MMOLC_M2,
        formula="{J} = −min({L} × {m} × {l} × {x}, {Y} × max({y} − {pH₀}, 0) + {A})",
        inputs=(
            of.fixed("L", message("why-in-free-lime"), lime_kg, SumUnit.MMOLC_KG),
            of.before(mass, message("why-in-mass")),
            of.fixed("l", message("why-in-lime-left"), left, SumUnit.NONE),
            of.fixed("x", message("why-in-dissolved"), share, SumUnit.NONE),
            of.before(per_ph, message("why-in-per-ph")),
            of.parameter("y", "column.carbonate_plateau_ph", SumUnit.PH),
            of.ph_now(bed),
            of.fixed("A", message("why-in-other-acid"), others, SumUnit.MMOLC_M2),
        ),
    )
    return (mass, per_ph, step)


def _humus(bed: OpenedBed) -> tuple[SumStep, ...]:
    return humus_steps(bed, held_at_ph(bed))
