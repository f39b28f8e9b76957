"""Beds for the column: a soil, weather and members at their medians, to be varied."""

from __future__ import annotations

from dataclasses import fields, replace
from functools import cache
from typing import Any

import numpy as np

from loamshift.core.column import run_column
from loamshift.core.column_events import column_events, shares_to_depth
from loamshift.core.column_laws import column_laws
from loamshift.core.column_layout import (
    ColumnEvent,
    ColumnLaws,
    ColumnResult,
    ColumnSoil,
    ColumnWeather,
    EventKind,
    FloatArray,
    MemberParameters,
)
from loamshift.core.column_soil import column_soil
from loamshift.tables import model
from loamshift.tables.parameters import parameter_values

EDGES_CM = (0.0, 5.0, 15.0, 30.0)
FLOWERS = ((10.0, 75.0, 1.0),)
SULFUR_ACID_MMOLC_G = 62.4


@cache
def laws() -> ColumnLaws:
    return column_laws(
        column=parameter_values("column"),
        buffer=model.buffer_parameters(),
        sulfur=model.sulfur_parameters(),
        nitrogen=model.nitrogen_parameters(),
        lime=model.lime_parameters(),
        ledger=model.ledger_parameters(),
        nitrate_uptake_half_time_d=parameter_values("advice")["nitrate_uptake_half_time_d"],
    )


def soil(
    ph: float = 6.5,
    *,
    clay_pct: float = 18.0,
    organic_carbon_pct: float = 1.5,
    carbonate_pct: float = 0.0,
    edges_cm: tuple[float, ...] = EDGES_CM,
    bulk_density_g_cm3: float = 1.3,
    organic_only: bool = False,
) -> ColumnSoil:
    return column_soil(
        edges_cm=edges_cm,
        bulk_density_g_cm3=bulk_density_g_cm3,
        start_ph=ph,
        carbonate_mmolc_kg=200.0 * carbonate_pct,
        clay_pct=clay_pct,
        organic_carbon_pct=organic_carbon_pct,
        params=model.buffer_parameters(),
        al_highest_mmolc_kg=parameter_values("column")["al_highest_mmolc_kg"],
        organic_zero_ph=parameter_values("column")["organic_zero_ph"],
        organic_only=organic_only,
    )


PRILLS: dict[str, Any] = {"break_up_top": (4e-3, 0.6), "break_up_dug_in": (1e-3, 0.9)}
"""Pastilles with some clay, about."""
PASTILLE_GRAINS = ((20.0, 75.0, 0.25), (75.0, 150.0, 0.35), (150.0, 500.0, 0.4))


def members(n: int = 1, *, seed: int | None = None, **changed: float) -> MemberParameters:
    """Medians, or with a seed a spread of 0.5 in the logarithm of every rate."""
    column, sulfur = parameter_values("column"), model.sulfur_parameters()
    nitrogen, lime, ledger = (
        model.nitrogen_parameters(),
        model.lime_parameters(),
        model.ledger_parameters(),
    )
    advice = parameter_values("advice")
    medians = {
        "log10_k": 0.0,
        "mass_factor": 1.0,
        "start_ph_shift": 0.0,
        "carbonate_factor": 1.0,
        "coarse_carbonate_frac": 0.0,
        "plateau_ph": column["carbonate_plateau_ph"],
        "carbonate_rate_per_d": column["carbonate_rate_per_d"],
        "carbonate_acid_exponent": column["carbonate_acid_exponent"],
        "gypsum_drop_ph": column["gypsum_drop_ph"],
        "alkalinity_factor": 1.0,
        "flux_pco2_atm": column["flux_pco2_atm"],
        "transport_factor": column["transport_factor"],
        "al_log10_k": model.buffer_parameters().al_solubility_log10_k,
        "wetness_shift": 0.0,
        "sulfur_rate_ug_cm2_d": sulfur.rate_ug_cm2_d,
        "sulfur_activation_energy_kj_mol": sulfur.activation_energy_kj_mol,
        "sulfur_growth_per_d": sulfur.growth_per_d,
        "sulfur_ramp_from_c": sulfur.ramp_from_c,
        "sulfur_grown_z": 0.0,
        "sulfur_crowding_exponent": sulfur.crowding_exponent,
        "break_up_z": sulfur.break_up_z,
        "nitrification_rate_per_d": nitrogen.nitrification_rate_per_d,
        "urea_rate_per_d": nitrogen.urea_rate_per_d,
        "realised_frac": ledger.realised_field_frac,
        "nitrate_uptake_mol_mol": ledger.realised_field_frac * (1.0 - ledger.unreturned_bed_frac),
        "background_mmolc_m2_year": ledger.background_unfed_mmolc_m2,
        "background_rise_per_ph": ledger.background_rise_per_ph,
        "weathering_mmolc_m2_year": ledger.weathering_mmolc_m2,
        "air_factor": 1.0,
        "anions_mmolc_l": column["anions_unfed_mmolc_l"],
        "lime_half_time_d": lime.half_time_d,
        "lime_acid_exponent": column["lime_acid_exponent"],
        "lime_field_efficiency": lime.field_efficiency,
        "surface_lime_factor": advice["surface_lime_rate_frac"],
        "fast_salt_half_time_d": advice["fast_salt_half_time_d"],
        "organic_acid_half_time_d": advice["organic_acid_half_time_d"],
        "decay_half_time_d": advice["decay_half_time_d"],
        "humus_labile_mmol_kg": 0.0,
        "humus_slow_mmol_kg": 0.0,
        "humus_labile_per_year": 0.126,
        "humus_slow_per_year": 0.017,
        "humus_rest_mol_mol": 0.0,
        "humus_carbon_per_mmol_kg": 0.004,
    }
    assert set(medians) == {field.name for field in fields(MemberParameters)}
    arrays = {name: np.full(n, value) for name, value in (medians | changed).items()}
    if seed is not None:
        rng = np.random.default_rng(seed)
        arrays["log10_k"] += rng.normal(0.0, 0.2, n)
        arrays["start_ph_shift"] += rng.normal(0.0, 0.15, n)
        arrays["plateau_ph"] += rng.normal(0.0, 0.1, n)
        for name in arrays:
            if name.endswith(("_per_d", "_d", "_m2_year", "_atm")) or name == "transport_factor":
                arrays[name] = arrays[name] * np.exp(rng.normal(0.0, 0.5, n))
    return MemberParameters(**arrays)


def weather(
    days: int = 365,
    *,
    n_layers: int = 3,
    mean_c: float = 12.0,
    swing_c: float = 9.0,
    first_day: int = 90,
    wetness: float = 0.8,
    drainage_mm_year: float = 200.0,
    irrigation_mm_week: float = 0.0,
    alkalinity_mmolc_l: float = 0.0,
) -> ColumnWeather:
    """A sine year of temperature, coldest in mid January; a soaking rain every fifth day."""
    day = np.arange(days) + first_day
    temp = mean_c - swing_c * np.cos(2.0 * np.pi * (day - 15) / 365.0)
    rain = np.where(day % 5 == 0, drainage_mm_year * 5.0 / 365.0, 0.0)
    return ColumnWeather(
        soil_temp_c=np.repeat(temp[:, None], n_layers, axis=1),
        wetness=np.full((days, n_layers), wetness),
        drainage_mm=rain,
        irrigation_mm=np.full(days, irrigation_mm_week / 7.0),
        alkalinity_mmolc_l=alkalinity_mmolc_l,
        leaching_factor=0.4 + 0.6 * min(1.5, drainage_mm_year / 200.0),
    )


def sulfur(
    rate_g_m2: float,
    *,
    day: int = 0,
    depth_cm: float = 15.0,
    edges_cm: tuple[float, ...] = EDGES_CM,
    sizes: tuple[tuple[float, float, float], ...] = FLOWERS,
    **changed: Any,
) -> ColumnEvent:
    changed.setdefault("grown_frac", model.sulfur_parameters().grown_first_frac)
    return ColumnEvent(
        kind=EventKind.SULFUR,
        day=day,
        layer_share=shares_to_depth(edges_cm, depth_cm),
        amount=rate_g_m2 * SULFUR_ACID_MMOLC_G,
        sizes=sizes,
        **changed,
    )


def event(
    kind: EventKind,
    amount: float = 0.0,
    *,
    day: int = 0,
    depth_cm: float = 15.0,
    edges_cm: tuple[float, ...] = EDGES_CM,
    **changed: Any,
) -> ColumnEvent:
    return ColumnEvent(
        kind=kind,
        day=day,
        layer_share=shares_to_depth(edges_cm, depth_cm),
        amount=amount,
        **changed,
    )


def everything(year: int = 0) -> list[ColumnEvent]:
    """Sulfur twice, nitrogen of every kind, salts, lime, decay and tillage in one year."""
    first = 365 * year
    return [
        sulfur(60.0, day=first + 3, depth_cm=5.0),
        sulfur(90.0, day=first + 160, sizes=((50.0, 150.0, 0.6), (150.0, 500.0, 0.4))),
        sulfur(15.0, day=first + 205, depth_cm=0.0, rate_factor=0.5),
        sulfur(20.0, day=first + 20, intact_um=3000.0, grown_frac=0.7, **PRILLS),
        sulfur(
            25.0,
            day=first + 30,
            depth_cm=0.0,
            intact_um=2000.0,
            rate_factor=0.5,
            on_surface=True,
            sizes=((100.0, 100.0, 1.0),),
            **PRILLS,
        ),
        event(EventKind.UREA, 350.0, day=first + 10, depth_cm=5.0),
        event(EventKind.AMMONIUM, 700.0, day=first + 40),
        event(EventKind.AMMONIA, 200.0, day=first + 41),
        event(EventKind.NITRATE, 300.0, day=first + 70),
        event(EventKind.ORGANIC_NITROGEN, 150.0, day=first + 75),
        event(EventKind.FAST_SALT, 120.0, day=first + 80),
        event(EventKind.ACID, 40.0, day=first + 81),
        event(EventKind.ORGANIC_ACID, 60.0, day=first + 82),
        event(EventKind.SULFATE, 500.0, day=first + 82),
        event(EventKind.DECAY, -90.0, day=first + 83),
        event(EventKind.LIME, 4000.0, day=first + 100, lime_frac=(0.5, 0.2, 0.15, 0.1, 0.05)),
        event(EventKind.LIME, 3000.0, day=first + 108, depth_cm=0.0, on_surface=True),
        event(EventKind.TILLAGE, day=first + 120),
        event(EventKind.TILLAGE, day=first + 200, depth_cm=30.0),
    ]


def run(
    the_soil: ColumnSoil,
    the_members: MemberParameters,
    the_weather: ColumnWeather,
    rows: list[ColumnEvent] | None = None,
    *,
    depth_cm: float = 15.0,
    stride_days: int = 7,
    threads: int = 1,
    steps_per_day: int = 1,
) -> ColumnResult:
    return run_column(
        the_soil,
        the_members,
        the_weather,
        column_events(rows or [], n_layers=the_soil.n_layers),
        laws=laws(),
        sample_depth_cm=depth_cm,
        stride_days=stride_days,
        threads=threads,
        steps_per_day=steps_per_day,
    )


def pick(the_members: MemberParameters, which: Any) -> MemberParameters:
    """Some of the members."""
    return replace(
        the_members,
        **{f.name: getattr(the_members, f.name)[which] for f in fields(MemberParameters)},
    )


def same_result(one: ColumnResult, other: ColumnResult) -> bool:
    """True where every array has the same bits."""
    return all(
        np.array_equal(_bits(getattr(one, f.name)), _bits(getattr(other, f.name)))
        for f in fields(ColumnResult)
    )


def _bits(values: FloatArray) -> Any:
    return values.view(np.int64)
