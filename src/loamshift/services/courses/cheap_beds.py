"""Possible beds without the column: one mixed layer each, for batches and for no forecast."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from datetime import date, timedelta
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.column_layout import HIGHEST_TABLE_PH, LOWEST_TABLE_PH, MemberParameters
from loamshift.core.member_weights import normal_slices
from loamshift.core.mixed_layer import FULL_LIME_PH, MixedLayer, mixed_layer_course
from loamshift.domain.answer import Application
from loamshift.domain.bed_context import BedContext
from loamshift.domain.material import Material
from loamshift.domain.soil import Soil
from loamshift.services.belief.bed_run import BedRun
from loamshift.services.belief.column_inputs import draw_members_of
from loamshift.services.belief.column_layers import soil_layers
from loamshift.services.belief.column_weather import leaching_factor
from loamshift.services.belief.scale_nodes import INSIDE_PH, on_nodes
from loamshift.services.context.build_context import require_soil
from loamshift.services.materials.acid import acid_brought_mmolc_m2, acid_course_mmolc_m2
from loamshift.services.materials.feed import present_feed_acid_mmolc_m2
from loamshift.services.materials.free_lime import coarse_lime_per_d
from loamshift.tables.materials import load_materials
from loamshift.tables.model import ledger_parameters
from loamshift.tables.parameters import parameter_values
from loamshift.units import CARBONATE_MMOLC_KG_PER_PCT

FloatArray = NDArray[np.float64]

CHEAP_OTHERS: Final = 32
"""Draws of everything but the buffer scale [count]."""
CHEAP_SLICES: Final = 7
"""Values of the buffer scale, each a member of its own [count]."""
STEP_DAYS: Final = 30


@dataclass(frozen=True, slots=True, kw_only=True)
class CheapBeds:
    """Possible beds of one mixed layer each, value of the scale by value.

    ``steady_acid`` (M, S) acid of water, feed and earlier material by step [mmolc/m2], of which
    ``water_acid`` (M, S), negative, is the water's; ``soil_temp_c`` and what else the clocks
    of materials need is in ``context``.
    """

    context: BedContext
    shape: tuple[int, int]
    parameters: MemberParameters
    layer: MixedLayer
    steps: FloatArray
    steady_acid: FloatArray
    water_acid: FloatArray

    @property
    def days(self) -> tuple[date, ...]:
        """The days the beds are read on: monthly, today first."""
        ends = np.concatenate(([0.0], np.cumsum(self.steps)))
        return tuple(self.context.case.today + timedelta(days=int(end)) for end in ends)

    @property
    def log10_k(self) -> FloatArray:
        """Buffer scale of each bed [log10]."""
        return self.parameters.log10_k

    def draw(self, name: str) -> FloatArray:
        """A parameter of each bed, shape (M,) [as in ``MemberParameters``]."""
        values: FloatArray = getattr(self.parameters, name)
        return values

    def run(self, applications: Sequence[Application]) -> BedRun:
        """The beds with these applications.

        Parameters
        ----------
        applications
            Dated parts, in the strength of the table's product [objects].

        Returns
        -------
        BedRun
            By bed, month by month from today [object].
        """
        return self.runs((applications,))[0]

    def runs(self, plans: Sequence[Sequence[Application]]) -> tuple[BedRun, ...]:
        """The beds with each of several plans, at little more work than one.

        Parameters
        ----------
        plans
            Dated parts of each [objects].

        Returns
        -------
        tuple of BedRun
            One a plan [objects].
        """
        courses: dict[tuple[str, date, bool], FloatArray] = {}
        acid = np.repeat(self.steady_acid[None], len(plans), axis=0)
        for number, part in [(n, part) for n, plan in enumerate(plans) for part in plan]:
            material, mixed_in = load_materials()[part.material], part.incorporate_cm > 0.0
            key = (part.material, part.date, mixed_in)
            if key not in courses:
                courses[key] = reaction_by_step(
                    self.context, material, on=part.date, steps=self.steps, incorporated=mixed_in
                )
            strength = self._strength(material) * part.rate_g_m2
            acid[number] += strength[:, None] * courses[key][None, :]
        return tuple(
            BedRun(ph=ph, oxidised_frac=np.zeros(self.steps.size + 1), balance_error=0.0)
            for ph in mixed_layer_course(self.layer, acid, step_days=self.steps)
        )

    def thinned(self, every: int) -> CheapBeds:
        """The same beds with one draw in so many.

        Parameters
        ----------
        every
            Keep one draw in so many [count].

        Returns
        -------
        CheapBeds
            The beds [object].
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
            parameters=_rows(self.parameters, rows),
            layer=MixedLayer(**thin),
            steady_acid=self.steady_acid[rows],
            water_acid=self.water_acid[rows],
        )

    def with_rain_water(self) -> CheapBeds:
        """The same beds watered without alkalinity.

        Returns
        -------
        CheapBeds
            The beds [object].
        """
        return replace(
            self,
            steady_acid=self.steady_acid - self.water_acid,
            water_acid=np.zeros_like(self.water_acid),
        )

    def _strength(self, material: Material) -> FloatArray:
        """What a bed makes of a gram, against the usual: lime works better in some [-]."""
        if material.caco3_eq_frac > 0.0 and material.elemental_s_frac == 0.0:
            return self.parameters.lime_field_efficiency
        return np.ones(self.layer.start_ph.size)


def cheap_beds(context: BedContext, *, days_ahead: int, seed: int = 1) -> CheapBeds:
    """Possible beds of one mixed layer each.

    Parameters
    ----------
    context
        A bed with a soil [object].
    days_ahead
        Days from today that they are run [d].
    seed
        Seed of the draws [number].

    Returns
    -------
    CheapBeds
        The beds [object].

    Notes
    -----
    The draws are those of the column's members. Started at the latest reading, or just inside the
    curve where it lies beyond; what was put on before it brings what it still has to, and earlier
    readings teach nothing here.
    """
    soil = require_soil(context)
    drawn = draw_members_of(context, (), soil=soil, members=CHEAP_OTHERS, seed=seed)
    members = on_nodes(drawn, soil=soil, nodes_z=normal_slices(CHEAP_SLICES)).parameters
    table = soil_layers(
        _inside_the_curve(soil),
        edges_cm=np.array([0.0, context.depth_cm]),
        organic_only=context.organic_only,
    )
    ledger = ledger_parameters()
    count = -(-days_ahead // STEP_DAYS)
    steps = np.full(count, float(STEP_DAYS))
    beds = members.n_members
    mass = context.soil_mass_kg_m2 * members.mass_factor
    in_pot = context.in_pot
    water = np.zeros((beds, count))
    water -= (
        context.water_base_mmolc_m2_year * members.alkalinity_factor[:, None]
    ) * _watering_share(context, steps)
    feed = present_feed_acid_mmolc_m2(context.case.feed, in_pot=in_pot)
    steady = water + feed * steps / 365.25
    steady = steady + _past_acid(context, steps)
    background = members.background_mmolc_m2_year * (0.0 if in_pot else 1.0)
    column = parameter_values("column")
    bicarbonate = 1000.0 * 10.0 ** parameter_values("buffer")["bicarbonate_log10_k"]
    bicarbonate = bicarbonate * members.flux_pco2_atm
    coarse = members.coarse_carbonate_frac > 0.5
    return CheapBeds(
        context=context,
        shape=(CHEAP_SLICES, CHEAP_OTHERS),
        parameters=members,
        layer=MixedLayer(
            start_ph=soil.ph.ph_water + members.start_ph_shift,
            k=10.0**members.log10_k,
            mass_kg_m2=mass,
            carbonate_mmolc_m2=members.carbonate_factor * CARBONATE_MMOLC_KG_PER_PCT * mass,
            held_ph=members.plateau_ph,
            background_mmolc_m2_year=background,
            background_rise_per_ph=members.background_rise_per_ph,
            weathering_mmolc_m2_year=members.weathering_mmolc_m2_year,
            drained_mm_year=context.drainage_mm_year * members.transport_factor,
            bicarbonate_mmol2_l2=bicarbonate,
            lime_per_d=np.where(
                coarse, coarse_lime_per_d(members.lime_half_time_d), members.carbonate_rate_per_d
            ),
            lime_acid_exponent=np.where(
                coarse, members.lime_acid_exponent, members.carbonate_acid_exponent
            ),
            lime_full_above_ph=np.where(coarse, column["lime_acid_below_ph"], FULL_LIME_PH),
            is_coarse=coarse,
            curve_ph=table.curve_ph,
            shape_mmolc_kg=table.shape_mmolc_kg
            + table.solution_mmolc_kg / 10.0**soil.k.log10_k_mean,
            reference_ph=ledger.background_reference_ph,
            highest_ph=ledger.background_highest_ph,
            leaching_factor=leaching_factor(context.drainage_mm_year),
            bicarbonate_highest_mmolc_l=column["bicarbonate_highest_mmolc_l"],
        ),
        steps=steps,
        steady_acid=steady,
        water_acid=water,
    )


def _inside_the_curve(soil: Soil) -> Soil:
    """The soil with its reading inside the curve, for the curve itself: sodic soils lie beyond."""
    lowest, highest = LOWEST_TABLE_PH + INSIDE_PH, HIGHEST_TABLE_PH - INSIDE_PH
    within = min(max(soil.ph.ph_water, lowest), highest)
    return replace(soil, ph=replace(soil.ph, ph_water=within))


def reaction_by_step(
    context: BedContext, material: Material, *, on: date, steps: FloatArray, incorporated: bool
) -> FloatArray:
    """Acid that one gram of a material brings in each step from today.

    Parameters
    ----------
    context
        A bed with a soil [object].
    material
        What goes on [object].
    on
        Day it goes on, today or later [calendar].
    steps
        Lengths of the steps [d].
    incorporated
        True where it is mixed in [truth].

    Returns
    -------
    ndarray
        Acid, base negative, shape (S,) [mmolc/g].
    """
    ends = np.cumsum(steps)
    after = (on - context.case.today).days
    length = max(0, int(ends[-1]) - after)
    if length == 0:
        return np.zeros(steps.size)
    course = acid_course_mmolc_m2(
        material,
        rate_g_m2=1.0,
        soil_temp_c=context.soil_temp_c,
        start=on,
        days=length,
        ph_water=require_soil(context).ph.ph_water,
        in_pot=context.in_pot,
        incorporated=incorporated,
    )
    come = np.interp(ends - after, np.arange(length + 1), np.concatenate(([0.0], course)))
    return np.diff(np.concatenate(([0.0], come)))


def _watering_share(context: BedContext, steps: FloatArray) -> FloatArray:
    """Share of a year's watering that falls in each step [1]."""
    months = context.case.water.months
    if not months:
        return np.zeros(steps.size)
    today = context.case.today
    starts = np.concatenate(([0.0], np.cumsum(steps)[:-1]))
    shares = []
    for start, days in zip(starts, steps, strict=True):
        held = sum(
            (today + timedelta(days=int(start) + day)).month in months
            for day in range(0, int(days), 10)
        )
        shares.append(held / len(range(0, int(days), 10)) * days / (365.25 * len(months) / 12.0))
    return np.asarray(shares)


def _past_acid(context: BedContext, steps: FloatArray) -> FloatArray:
    """Acid still to come from what was put on, by step from today, shape (S,) [mmolc/m2]."""
    found = np.zeros(steps.size)
    for applied, pending in zip(context.case.applied, context.pending, strict=True):
        if pending.acid_mmolc_m2 == 0.0:
            continue
        whole = acid_brought_mmolc_m2(
            applied.material, rate_g_m2=applied.rate_g_m2, in_pot=context.in_pot
        )
        since = max((context.case.today - applied.on).days, 0)
        ends = np.cumsum(steps)
        course = acid_course_mmolc_m2(
            applied.material,
            rate_g_m2=applied.rate_g_m2,
            soil_temp_c=context.soil_temp_c,
            start=applied.on,
            days=since + int(ends[-1]),
            ph_water=require_soil(context).ph.ph_water,
            in_pot=context.in_pot,
            incorporated=applied.incorporated_cm > 0.0,
        )
        come = np.interp(since + ends, np.arange(course.size + 1), np.concatenate(([0.0], course)))
        read = whole - pending.acid_mmolc_m2
        found += np.diff(np.concatenate(([read], come)))
    return found


def _rows(parameters: MemberParameters, rows: NDArray[np.int64]) -> MemberParameters:
    return MemberParameters(
        **{field.name: getattr(parameters, field.name)[rows] for field in fields(MemberParameters)}
    )
