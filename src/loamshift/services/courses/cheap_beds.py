"""Possible beds without the column: one mixed layer each, for batches and for no forecast."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from datetime import date, timedelta
from functools import lru_cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.column_layout import MemberParameters
from loamshift.core.mixed_layer import FULL_LIME_PH, MixedLayer, aged_layer
from loamshift.domain.answer import Application
from loamshift.domain.bed_context import BedContext
from loamshift.domain.material import Material
from loamshift.domain.soil import Soil
from loamshift.services.belief.bed_run import BedRun
from loamshift.services.belief.column_layers import tabulated_curve
from loamshift.services.belief.column_priors import parameters_of
from loamshift.services.belief.column_weather import leaching_factor
from loamshift.services.context.air import air_beyond_load
from loamshift.services.context.water import deep_co2_factor, water_anions_mmolc_l
from loamshift.services.courses.layer_acid import (
    feed_acid_by_step,
    humus_acid_by_step,
    past_acid_by_step,
    reaction_by_step,
    sampled_cm,
    share_within,
    watering_share_by_step,
)
from loamshift.services.materials.free_lime import coarse_lime_per_d
from loamshift.services.materials.lime_share import member_shares
from loamshift.services.materials.named import material_named
from loamshift.tables.model import ledger_parameters
from loamshift.tables.parameters import parameter_values
from loamshift.units import CARBONATE_MMOLC_KG_PER_PCT

FloatArray = NDArray[np.float64]

STEP_DAYS: Final = 30


@dataclass(frozen=True, slots=True, kw_only=True)
class CheapBeds:
    """Possible beds of one mixed layer each, value of the scale by value.

    ``steady_acid`` (M, S) acid of water, feed and earlier material by step [mmolc/m2], of which
    ``water_acid`` (M, S), negative, is the water's and ``feed_acid`` (S,) the feed's;
    ``soil_temp_c`` and what else the clocks of materials need is in ``context``.
    """

    context: BedContext
    shape: tuple[int, int]
    parameters: MemberParameters
    layer: MixedLayer
    steps: FloatArray
    steady_acid: FloatArray
    water_acid: FloatArray
    feed_acid: FloatArray

    @property
    def days(self) -> tuple[date, ...]:
        """The days the beds are read on: monthly, today first."""
        return _days_after(self.context.case.today, tuple(self.steps.tolist()))

    @property
    def log10_k(self) -> FloatArray:
        """Buffer scale of each bed [log10]."""
        return self.parameters.log10_k

    def draw(self, name: str) -> FloatArray:
        """A parameter of each bed, shape (M,) [as in ``MemberParameters``]."""
        values: FloatArray = getattr(self.parameters, name)
        return values

    def run(self, applications: Sequence[Application]) -> BedRun:
        """The beds with these applications."""
        return self.runs((applications,))[0]

    def runs(self, plans: Sequence[Sequence[Application]]) -> tuple[BedRun, ...]:
        """The beds with each of several plans, at little more work than one."""
        courses: dict[tuple[str, date, bool], FloatArray] = {}
        # step by step in memory, as the layers are worked out
        acid = np.repeat(self.steady_acid.T[None], len(plans), axis=0).swapaxes(1, 2)
        on_top: FloatArray | None = None
        own = self.context.case.own_materials
        for number, part in [(n, part) for n, plan in enumerate(plans) for part in plan]:
            material, mixed_in = material_named(part.material, own=own), part.incorporate_cm > 0.0
            key = (part.material, part.date, mixed_in)
            if key not in courses:
                courses[key] = reaction_by_step(
                    self.context, material, on=part.date, steps=self.steps, incorporated=mixed_in
                )
            within = share_within(self.context, part.incorporate_cm)
            strength = self._strength(material) * part.rate_g_m2 * within
            coming = (strength * courses[key][:, None]).T
            if is_lime(material) and not mixed_in:
                on_top = np.zeros_like(acid) if on_top is None else on_top
                on_top[number] += coming
            else:
                acid[number] += coming
        if on_top is not None:
            acid += self._let_in(on_top)
        return tuple(
            BedRun(ph=ph, oxidised_frac=np.zeros(self.steps.size + 1), balance_error=0.0)
            for ph in self.context.loops.layers(self.layer, acid, step_days=self.steps)[0]
        )

    def thinned(self, every: int) -> CheapBeds:
        """The same beds with one draw in so many.

        Parameters
        ----------
        every
            Keep one draw in so many [count].
        """
        kept = np.arange(self.shape[0] * self.shape[1]).reshape(self.shape)[:, ::every]
        rows = kept.ravel()
        thin = {
            field.name: getattr(self.layer, field.name)[rows]
            if np.shape(getattr(self.layer, field.name)) == (self.layer.start_ph.size,)
            else getattr(self.layer, field.name)
            for field in fields(MixedLayer)
        }
        return replace(
            self,
            shape=(self.shape[0], kept.shape[1]),
            parameters=parameters_of(self.parameters, rows),
            layer=MixedLayer(**thin),
            steady_acid=self.steady_acid[rows],
            water_acid=self.water_acid[rows],
        )

    def with_rain_water(self) -> CheapBeds:
        """The same beds watered without alkalinity."""
        added = water_anions_mmolc_l(self.context) * self.parameters.alkalinity_factor
        return replace(
            self,
            layer=replace(self.layer, anions_mmolc_l=self.layer.anions_mmolc_l - added),
            steady_acid=self.steady_acid - self.water_acid,
            water_acid=np.zeros_like(self.water_acid),
        )

    def without_feed(self) -> CheapBeds:
        """The same beds, given none of their fertiliser from today on."""
        return replace(
            self,
            steady_acid=self.steady_acid - self.feed_acid,
            feed_acid=np.zeros_like(self.feed_acid),
        )

    def _let_in(self, lime_acid: FloatArray) -> FloatArray:
        """What of surface lime gets into the soil by step, shape (P, M, S) [mmolc/m2].

        It stops dissolving where it has limed the top of the soil, and goes on as bicarbonate
        washes that down.
        """
        rules, layer = parameter_values("plan"), self.layer
        top = min(rules["surface_lime_cm"] / sampled_cm(self.context), 1.0)
        stop, start = (
            np.interp(ph, layer.curve_ph, layer.shape_mmolc_kg)
            for ph in (rules["surface_lime_stop_ph"], layer.start_ph)
        )
        room = np.maximum(stop - start, 0.0) * layer.k * layer.mass_kg_m2 * top
        years = np.cumsum(self.steps) / 365.25
        held = layer.bicarbonate_mmol2_l2 * 10.0 ** rules["surface_lime_stop_ph"]
        washed = layer.drained_mm_year * np.minimum(held, layer.bicarbonate_highest_mmolc_l)
        if self.context.in_pot:
            washed = np.minimum(washed, rules["surface_lime_in_pots_per_year"] * room)
        most = rules["surface_lime_at_once_frac"] * room[:, None] + washed[:, None] * years
        come = np.maximum(np.cumsum(lime_acid, axis=-1), -most)
        return np.diff(come, axis=-1, prepend=0.0)

    def _strength(self, material: Material) -> FloatArray:
        """What a bed makes of a gram, against the usual: lime works better in some [-]."""
        if is_lime(material):
            return member_shares(material, self.parameters.lime_field_efficiency)
        return np.ones(self.layer.start_ph.size)


@lru_cache(maxsize=64)
def _days_after(today: date, steps: tuple[float, ...]) -> tuple[date, ...]:
    """Today and the day at the end of each step."""
    ends = np.concatenate(([0.0], np.cumsum(steps)))
    return tuple(today + timedelta(days=int(end)) for end in ends)


def is_lime(material: Material) -> bool:
    """Whether a material is there for its carbonate, oxide or hydroxide."""
    return material.caco3_eq_frac > 0.0 and material.elemental_s_frac == 0.0


def beds_of_one_layer(
    context: BedContext,
    *,
    soil: Soil,
    members: MemberParameters,
    shape: tuple[int, int],
    read: date,
    days_ahead: int,
) -> CheapBeds:
    """Possible beds of one mixed layer each, from the day of a reading run to today.

    Parameters
    ----------
    members
        What each bed is, value of the scale by value, shape (M,).
    shape
        Values of the scale, and draws of everything else [count].
    read
        Day of the reading, today or before.
    days_ahead
        Days from today that they are run [d].

    Notes
    -----
    The draws are those of the column's members. Started just inside the curve where the reading
    lies beyond; what was put on before it brings what it still has to.
    """
    layer = _layer_as_read(context, soil=soil, members=members)
    since = steps_of((context.case.today - read).days)
    if since.size:
        before, _, _ = _acid_left_alone(context, members, read=read, start=read, steps=since)
        layer = aged_layer(layer, before, step_days=since, run=context.loops.layers)
    steps = np.full(-(-days_ahead // STEP_DAYS), float(STEP_DAYS))
    steady, water, fed = _acid_left_alone(
        context, members, read=read, start=context.case.today, steps=steps
    )
    return CheapBeds(
        context=context,
        shape=shape,
        parameters=members,
        layer=layer,
        steps=steps,
        steady_acid=steady,
        water_acid=water,
        feed_acid=fed,
    )


def ph_since(
    context: BedContext, *, soil: Soil, members: MemberParameters, read: date
) -> tuple[FloatArray, FloatArray]:
    """What beds of one layer did from the day of a reading until today.

    Parameters
    ----------
    read
        Day of the reading, before today.

    Returns
    -------
    tuple of ndarray
        Days since the reading, shape (S + 1,) [d], and the pH of each bed, shape (M, S + 1)
        [pH in water].
    """
    steps = steps_of((context.case.today - read).days)
    acid, _, _ = _acid_left_alone(context, members, read=read, start=read, steps=steps)
    layer = _layer_as_read(context, soil=soil, members=members)
    ph, _ = context.loops.layers(layer, acid, step_days=steps)
    return np.concatenate(([0.0], np.cumsum(steps))), ph


def steps_of(days: int) -> FloatArray:
    """Equal steps of about a month over so many days.

    Parameters
    ----------
    days
        How many, 0 or more [d].

    Returns
    -------
    ndarray
        Lengths, none where there is no day [d].
    """
    count = max(round(days / STEP_DAYS), 1 if days > 0 else 0)
    return np.full(count, days / count) if count else np.zeros(0)


def _acid_left_alone(
    context: BedContext, members: MemberParameters, *, read: date, start: date, steps: FloatArray
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Acid of water, feed and earlier material by bed and step, and what water and feed make."""
    share = watering_share_by_step(context, start=start, steps=steps)
    water = -context.water_base_mmolc_m2_year * members.alkalinity_factor[:, None] * share
    fed = feed_acid_by_step(context, start=start, steps=steps)
    shared = fed + past_acid_by_step(
        context, field_efficiency=members.lime_field_efficiency, read=read, start=start, steps=steps
    )
    rotting = humus_acid_by_step(context, members, since_read_d=(start - read).days, steps=steps)
    return water + shared + rotting, water, fed


def _layer_as_read(context: BedContext, *, soil: Soil, members: MemberParameters) -> MixedLayer:
    curve_ph, shape, solution = tabulated_curve(soil, organic_only=context.organic_only)
    ledger, column = ledger_parameters(), parameter_values("column")
    within = sampled_cm(context) / context.depth_cm
    mass = context.soil_mass_kg_m2 * within * members.mass_factor
    load = min(within, 1.0) * (not context.in_pot)
    bicarbonate = 1000.0 * 10.0 ** parameter_values("buffer")["bicarbonate_log10_k"]
    coarse = members.coarse_carbonate_frac > 0.5
    return MixedLayer(
        start_ph=soil.ph.ph_water + members.start_ph_shift,
        k=10.0**members.log10_k,
        mass_kg_m2=mass,
        carbonate_mmolc_m2=members.carbonate_factor * CARBONATE_MMOLC_KG_PER_PCT * mass,
        held_ph=members.plateau_ph,
        background_mmolc_m2_year=members.background_mmolc_m2_year * load,
        background_rise_per_ph=members.background_rise_per_ph,
        weathering_mmolc_m2_year=members.weathering_mmolc_m2_year * min(within, 1.0),
        air_mmolc_m2_year=members.air_factor
        * air_beyond_load(context.place, land_use=context.land_use, year=context.case.today.year)
        * load,
        drained_mm_year=context.drainage_mm_year * members.transport_factor,
        bicarbonate_mmol2_l2=bicarbonate
        * members.flux_pco2_atm
        * deep_co2_factor(sampled_cm(context)),
        lime_per_d=np.where(
            coarse, coarse_lime_per_d(members.lime_half_time_d), members.carbonate_rate_per_d
        ),
        lime_acid_exponent=np.where(
            coarse, members.lime_acid_exponent, members.carbonate_acid_exponent
        ),
        lime_full_above_ph=np.where(coarse, column["lime_acid_below_ph"], FULL_LIME_PH),
        is_coarse=coarse,
        curve_ph=curve_ph,
        shape_mmolc_kg=shape + solution / 10.0**soil.k.log10_k_mean,
        reference_ph=ledger.background_reference_ph,
        highest_ph=ledger.background_highest_ph,
        leaching_factor=leaching_factor(context.drainage_mm_year),
        anions_mmolc_l=members.anions_mmolc_l,
        bicarbonate_highest_mmolc_l=column["bicarbonate_highest_mmolc_l"],
        suspension_mmolc_l=column["suspension_mmolc_l"],
    )
