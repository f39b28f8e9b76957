"""The column once more in plain NumPy, all members at a time: to check the kernel, and to race it.

The same equations in the same order, written for arrays over the members instead of for one
member. It shares the input arrays of the kernel and not one of its functions.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from loamshift.core.column_layout import (
    ColumnEvents,
    ColumnLaws,
    ColumnSoil,
    ColumnWeather,
    EventKind,
    MemberParameters,
)
from loamshift.core.equilibrium import GAS_CONSTANT_KJ_MOL_K, KELVIN_AT_0_C
from loamshift.core.soil_water import slope_ratio, soil_water_hydrogen

Array = NDArray[np.float64]
SPENT = 1.0e-3
UG_PER_MMOLC = 1.0e3 * 32.06 / 2.0
YEAR_D = 365.25
LN2 = np.log(2.0)
LN10 = np.log(10.0)


class Curve:
    """Base content on equal steps of pH, a row per member, read both ways."""

    def __init__(self, soil: ColumnSoil, members: MemberParameters) -> None:
        k = 10.0**members.log10_k
        self.content = k[:, None] * soil.shape_mmolc_kg + soil.solution_mmolc_kg
        self.row = np.arange(k.size)
        self.points = soil.curve_ph

    def place(self, base: Array) -> tuple[Any, Array, Array]:
        """Step of each member, how far along it, and its width in base content."""
        low = np.zeros(base.size, dtype=np.int64)
        high = np.full(base.size, self.points.size - 1)
        while (high - low).max() > 1:
            middle = (low + high) // 2
            under = self.content[self.row, middle] <= base
            low, high = np.where(under, middle, low), np.where(under, high, middle)
        below = self.content[self.row, low]
        width = self.content[self.row, low + 1] - below
        return low, np.clip((base - below) / width, 0.0, 1.0), width

    def ph(self, base: Array) -> Array:
        """PH of a base content."""
        step, t, _ = self.place(base)
        result: Array = self.points[step] + t * (self.points[step + 1] - self.points[step])
        return result

    def base(self, ph: Array) -> Array:
        """Base content at a pH."""
        pairs = zip(ph, self.content, strict=True)
        return np.array([np.interp(p, self.points, row) for p, row in pairs])


class NumpyColumn:
    """State of all members, layer by layer; ``run`` gives the pH read, (members, readings)."""

    def __init__(
        self,
        soil: ColumnSoil,
        members: MemberParameters,
        weather: ColumnWeather,
        events: ColumnEvents,
        laws: ColumnLaws,
    ) -> None:
        self.soil, self.members, self.weather = soil, members, weather
        self.events, self.laws = events, laws
        self.curve = Curve(soil, members)
        n, layers = members.n_members, soil.n_layers
        self.mass = soil.mass_kg_m2 * members.mass_factor[:, None]
        start = soil.start_ph + members.start_ph_shift[:, None]
        self.base = np.stack([self.curve.base(start[:, i]) for i in range(layers)], axis=1)
        lime = soil.carbonate_mmolc_m2 * members.carbonate_factor[:, None]
        lime = lime * members.mass_factor[:, None]
        coarse = members.coarse_carbonate_frac[:, None] * lime
        self.carbonate = lime - coarse
        names = ("sulfate", "fast", "organic", "decay", "urea", "ammonium", "nitrate")
        self.pool = {name: np.zeros((n, layers)) for name in names}
        self.lime = np.zeros((n, layers, 5))
        self.lime[:, :, 4] = laws.coarse_carbonate_coarsest_frac * coarse
        self.lime[:, :, 3] = coarse - self.lime[:, :, 4]
        self.lime_on_top = np.zeros((n, layers, 5))
        self.doses: list[dict[str, Any]] = []
        reach = np.exp(-soil.edges_cm / laws.root_depth_cm)
        self.root = (reach[:-1] - reach[1:]) / (reach[0] - reach[-1])
        p, drop = members.plateau_ph, members.gypsum_drop_ph
        self.plateau = self.curve.base(p), self.curve.base(p - drop)
        below = np.maximum(soil.edges_cm - laws.deep_co2_from_cm, 0.0)
        self.co2_factor = laws.deep_co2_factor ** (np.diff(below) / np.diff(soil.edges_cm))
        self.bicarbonate = 1000.0 * 10.0**laws.bicarbonate_log10_k * members.flux_pco2_atm
        self.aluminium = 3000.0 * 10.0**members.al_log10_k
        self.neutral = [self._neutral_ph(layer) for layer in range(layers)]

    def run(self, sampled: int, stride_days: int) -> Array:
        """Run all days and read the mixed sample."""
        readings = [self._reading(sampled)]
        for day in range(self.weather.n_days):
            for event in np.nonzero(self.events.day == day)[0]:
                self._happen(int(event))
            self._day(day)
            if (day + 1) % stride_days == 0:
                readings.append(self._reading(sampled, self.laws.sample_wet_d))
        return np.stack(readings, axis=1)

    def _reading(self, sampled: int, wet_d: float = 0.0) -> Array:
        mass = self.mass[:, :sampled]
        base = (mass * self.base[:, :sampled]).sum(axis=1) / mass.sum(axis=1)
        aims = np.stack([self._gypsum(layer, self.plateau) for layer in range(sampled)], axis=1)
        takes = np.maximum(0.0, mass * (aims - self.base[:, :sampled]))
        over = self.carbonate[:, :sampled] - takes
        lime, sour = (np.maximum(0.0, one).sum(axis=1) for one in (over, -over))
        acid = np.maximum(0.0, 7.0 - self.curve.ph(base))
        time = wet_d * self.members.carbonate_rate_per_d
        time = time * np.exp(LN10 * self.members.carbonate_acid_exponent * acid)
        given = np.minimum(lime, sour * -np.expm1(-time))
        return self.curve.ph(base + given / mass.sum(axis=1))

    def _water(self, layer: int, ph: Array) -> Array:
        """Hydrogen of the soil water of a layer that reads a pH."""
        return soil_water_hydrogen(
            np.exp(-LN10 * ph),
            anions_mmolc_l=self.members.anions_mmolc_l,
            bicarbonate_mmol2_l2=self.co2_factor[layer] * self.bicarbonate,
            suspension_mmolc_l=self.laws.suspension_mmolc_l,
        )

    def _neutral_ph(self, layer: int) -> Array:
        low, high = np.zeros_like(self.bicarbonate), np.full_like(self.bicarbonate, 14.0)
        for _ in range(60):
            middle = 0.5 * (low + high)
            h = self._water(layer, middle)
            base = (
                self.co2_factor[layer] * self.bicarbonate / h - 1000.0 * h - self.aluminium * h**3
                > 0.0
            )
            low, high = np.where(base, low, middle), np.where(base, middle, high)
        neutral: Array = 0.5 * (low + high)
        return neutral

    def _happen(self, event: int) -> None:
        e, m, laws = self.events, self.members, self.laws
        kind = EventKind(int(e.kind[event]))
        if kind is EventKind.TILLAGE:
            self._till(e.layer_share[event] > 0.0)
            return
        amount = e.amount[event] * e.layer_share[event]
        r = m.realised_frac[:, None]
        if kind is EventKind.SULFUR:
            n = m.n_members
            start = np.repeat(amount[None, :], n, axis=0)
            zero = np.zeros_like(start)
            dose = {"event": event, "start": start, "left": start.copy(), "eaten": zero}
            dose |= {"factor": np.full(n, e.rate_factor[event]), "top": e.on_surface[event] > 0.0}
            dose |= {"grown": self._first_grown(event, start)}
            prills = e.intact_um[event] > 0.0
            dose |= {"whole": start.copy() if prills else zero.copy()}
            dose |= {"pools": [zero.copy() for _ in e.size_frac[event] for _ in range(2)]}
            self.doses.append(dose)
            self._crowd(dose)
        elif kind is EventKind.ACID:
            self.base -= amount / self.mass
        elif kind is EventKind.FAST_SALT:
            self.pool["fast"] += amount
        elif kind is EventKind.ORGANIC_ACID:
            self.base -= amount / self.mass
            self.pool["organic"] -= amount
        elif kind is EventKind.DECAY:
            self.pool["decay"] += amount
        elif kind is EventKind.ORGANIC_NITROGEN:
            kept = r * laws.acid_per_urea_n_mol_mol - m.nitrate_uptake_mol_mol[:, None]
            self.pool["decay"] += kept * amount
        elif kind is EventKind.AMMONIA:
            taken = r * (laws.acid_per_nh4_mol_mol - laws.acid_per_urea_n_mol_mol) * amount
            self.base += taken / self.mass
            self.pool["ammonium"] += amount
        elif kind is EventKind.LIME:
            given = m.lime_field_efficiency[:, None] * amount
            pool = self.lime if e.on_surface[event] == 0.0 else self.lime_on_top
            pool += given[:, :, None] * e.lime_frac[event]
        else:
            self.pool[kind.name.lower()] += amount

    def _till(self, mixed: Any) -> None:
        part = self.mass[:, mixed] / self.mass[:, mixed].sum(axis=1, keepdims=True)
        self.base[:, mixed] = (part * self.base[:, mixed]).sum(axis=1, keepdims=True)
        for pool in (self.carbonate, *self.pool.values()):
            pool[:, mixed] = part * pool[:, mixed].sum(axis=1, keepdims=True)
        lime = self.lime[:, mixed] + self.lime_on_top[:, mixed]
        self.lime[:, mixed] = part[:, :, None] * lime.sum(axis=1, keepdims=True)
        self.lime_on_top[:, mixed] = 0.0
        for dose in self.doses:
            start = dose["start"][:, mixed].sum(axis=1, keepdims=True)
            if not start.any():
                continue
            left = dose["left"][:, mixed].sum(axis=1, keepdims=True)
            dose["factor"] = np.maximum(1.0, dose["factor"])
            dose["top"] = False
            grown = (dose["start"] * dose["grown"])[:, mixed].sum(axis=1, keepdims=True) / start
            dose["start"][:, mixed], dose["left"][:, mixed] = part * start, part * left
            dose["grown"][:, mixed] = grown
            for pool in dose["pools"]:
                pool[:, mixed] = part * pool[:, mixed].sum(axis=1, keepdims=True)
            ball = self.events.intact_um[dose["event"]]
            if ball > 0.0:
                share = np.maximum(1.0e-300, np.maximum(0.0, 1.0 - dose["eaten"] / ball) ** 3)
                number = (dose["whole"] / share)[:, mixed].sum(axis=1, keepdims=True)
                whole = dose["whole"][:, mixed].sum(axis=1, keepdims=True)
                dose["whole"][:, mixed] = part * whole
                side = (whole / np.maximum(1.0e-300, number)) ** (1.0 / 3.0)
                dose["eaten"][:, mixed] = ball * (1.0 - side)
            else:
                dose["eaten"][:, mixed] = self._eaten_for(dose, (left / start)[:, 0])[:, None]
            self._crowd(dose)

    def _eaten_for(self, dose: dict[str, Any], wanted: Array) -> Array:
        e = self.events
        most = e.size_high_um[dose["event"]].max()
        low, high = np.zeros_like(wanted), np.full_like(wanted, most)
        for _ in range(60):
            middle = 0.5 * (low + high)
            more = self._share_left(dose, middle) > wanted
            low, high = np.where(more, middle, low), np.where(more, high, middle)
        return 0.5 * (low + high)

    def _share_left(self, dose: dict[str, Any], eaten: Array) -> Array:
        e, event = self.events, dose["event"]
        left = np.zeros_like(eaten)
        sizes = zip(e.size_low_um[event], e.size_high_um[event], e.size_frac[event], strict=True)
        for low, high, share in sizes:
            if share <= 0.0:
                continue
            if high / low < 1.0 + 1.0e-4:
                left += share * np.maximum(0.0, 1.0 - eaten / np.sqrt(low * high)) ** 3
                continue
            a = np.clip(eaten, low, high)
            mean = np.log(high / a)
            for power, factor in ((1, 3.0), (2, -1.5), (3, 1.0 / 3.0)):
                mean += factor * eaten**power * (1.0 / high**power - 1.0 / a**power)
            left += np.where(eaten < high, share * np.maximum(0.0, mean / np.log(high / low)), 0.0)
        return left

    def _first_grown(self, event: int, start: Array) -> Array:
        """Strength of the oxidisers on the first day: by log odds, in each member."""
        usual, sd = self.events.grown_frac[event], self.events.grown_sd[event]
        if sd == 0.0:
            return np.full_like(start, usual)
        odds = np.log(usual / (1.0 - usual)) + sd * self.members.sulfur_grown_z
        return np.repeat((1.0 / (1.0 + np.exp(-odds)))[:, None], start.shape[1], axis=1)

    def _crowd(self, dose: dict[str, Any]) -> None:
        """The factors on the rate for the sulfur surface in each layer, grains and whole."""
        e, event, laws = self.events, dose["event"], self.laws
        per_um = 0.0
        for low, high, share in self._classes(event):
            one = high / low < 1.0 + 1.0e-4
            mean = (low * high) ** -0.5 if one else (1.0 / low - 1.0 / high) / np.log(high / low)
            per_um += share * mean
        per_mmolc = 6.0 * UG_PER_MMOLC / laws.density_ug_cm3 * 1.0e4
        grains = e.surface_cm2_mmolc[event] or per_mmolc * per_um
        whole = per_mmolc / (e.intact_um[event] or 1.0)
        b = self.members.sulfur_crowding_exponent[:, None]
        for name, surface in (("crowd", grains), ("crowd_whole", whole)):
            held = np.maximum(dose["start"] / self.mass * surface, laws.lowest_surface_cm2_kg)
            dose[name] = (held / laws.reference_surface_cm2_kg) ** -b

    def _classes(self, event: int) -> list[tuple[float, float, float]]:
        e = self.events
        sizes = zip(e.size_low_um[event], e.size_high_um[event], e.size_frac[event], strict=True)
        return [(float(low), float(high), float(share)) for low, high, share in sizes]

    def _prills_left(self, dose: dict[str, Any], layer: int, worn: Array, wet: Array) -> Array:
        """What a day leaves of prills: grains react, whole ones shrink, then some break up."""
        e, event = self.events, dose["event"]
        left = np.zeros_like(worn)
        classes = self._classes(event)
        for i, (low, high, _) in enumerate(classes):
            one = high / low < 1.0 + 1.0e-4
            mean = np.sqrt(low * high) if one else (high - low) / np.log(high / low)
            young, old = dose["pools"][2 * i][:, layer], dose["pools"][2 * i + 1][:, layer]
            gone = worn * dose["crowd"][:, layer] / mean
            old[:] = np.exp(-6.0 * gone) * (old + 3.0 * gone * young)
            young *= np.exp(-6.0 * gone)
            left += young + old
        ball, eaten = e.intact_um[event], dose["eaten"][:, layer]
        before = np.maximum(0.0, 1.0 - eaten / ball) ** 3
        eaten = eaten + worn * dose["crowd_whole"][:, layer]
        after = np.maximum(0.0, 1.0 - eaten / ball) ** 3
        whole = dose["whole"][:, layer] * after / np.maximum(before, 1.0e-300)
        usual, sd = (e.break_up_top if dose["top"] else e.break_up_dug_in)[event]
        speed = usual * np.exp(sd * self.members.break_up_z) * (wet if dose["top"] else 1.0)
        broken = -whole * np.expm1(-speed)
        dose["eaten"][:, layer], dose["whole"][:, layer] = eaten, whole - broken
        for pool, (_, _, share) in zip(dose["pools"][::2], classes, strict=True):
            pool[:, layer] += share * broken
        return np.asarray(left + whole, dtype=np.float64)

    def _day(self, day: int) -> None:
        w = self.weather
        inflow = w.irrigation_mm[day] * w.alkalinity_mmolc_l * self.members.alkalinity_factor
        sulfate_in, anion_in = np.zeros_like(inflow), np.zeros_like(inflow)
        for layer in range(self.soil.n_layers):
            m, laws = self.members, self.laws
            ph = self.curve.ph(self.base[:, layer])
            over = np.minimum(ph, laws.background_highest_ph) - laws.background_reference_ph
            rise = np.exp(m.background_rise_per_ph * over)
            load = m.background_mmolc_m2_year * w.leaching_factor * rise
            net = load - m.weathering_mmolc_m2_year
            if w.air_mmolc_m2_year is not None:
                net = net + m.air_factor * w.air_mmolc_m2_year[day]
            acid = self.root[layer] * net / YEAR_D
            acid = acid + self._sulfur(day, layer, ph)
            if w.soil_temp_c[day, layer] > laws.nitrification_lowest_c:
                acid = acid + self._living(day, layer, ph)
            made = self._let_go("fast", layer, m.fast_salt_half_time_d)
            self.pool["sulfate"][:, layer] += np.maximum(0.0, made)
            acid = acid + made - self._lime(layer, ph)
            self.base[:, layer] += (inflow - acid) / self.mass[:, layer]
            inflow = self._drain(layer, float(w.drainage_mm[day]))
            self.base[:, layer] -= inflow / self.mass[:, layer]
            organic = self.pool["organic"][:, layer]
            washed = np.minimum(0.0, np.maximum(inflow, organic))
            self.pool["organic"][:, layer] += anion_in - washed
            anion_in = washed
            self._carbonate(layer)
            leached = laws.sulfate_leach_factor * w.drainage_mm[day] / self.mass[:, layer]
            sulfate = self.pool["sulfate"][:, layer]
            washed = sulfate * -np.expm1(-leached)
            washed = np.where((sulfate - washed < SPENT) & (leached > 0.0), sulfate, washed)
            self.pool["sulfate"][:, layer] += sulfate_in - washed
            sulfate_in = washed

    def _sulfur(self, day: int, layer: int, ph: Array) -> Array:
        m, laws = self.members, self.laws
        acid = np.zeros(m.n_members)
        temp = self.weather.soil_temp_c[day, layer]
        gap = self.weather.wetness[day, layer] + m.wetness_shift - laws.moisture_optimum
        wet = np.maximum(0.0, 1.0 - (gap / laws.moisture_width) ** 2)
        heat = (laws.highest_temp_c - temp) / (laws.highest_temp_c - laws.flat_to_c)
        if not self.doses:
            return acid
        ramp = np.clip((temp - m.sulfur_ramp_from_c) / laws.ramp_width_c, 0.0, 1.0)
        kelvin = min(temp, laws.flat_from_c) + KELVIN_AT_0_C
        inverse = (1.0 / (25.0 + KELVIN_AT_0_C) - 1.0 / kelvin) / GAS_CONSTANT_KJ_MOL_K
        worth = np.exp(m.sulfur_activation_energy_kj_mol * inverse) * ramp * wet
        worth = worth * min(1.0, max(0.0, heat))
        span = laws.normal_soil_ph - laws.acid_soil_ph
        share = np.clip((ph - laws.acid_soil_ph) / span, 0.0, 1.0)
        slow = laws.acid_soil_factor + (1.0 - laws.acid_soil_factor) * share
        speed = 2.0 * m.sulfur_rate_ug_cm2_d / laws.density_ug_cm3 / 1.0e-4 * slow
        for dose in self.doses:
            before, grown = dose["left"][:, layer], dose["grown"][:, layer]
            reach = grown + (1.0 - grown) * np.exp(-m.sulfur_growth_per_d * worth)
            full = worth + np.log(reach) / m.sulfur_growth_per_d
            worn = np.where(before > 0.0, speed * dose["factor"] * full, 0.0)
            dose["grown"][:, layer] = np.where(before > 0.0, grown / reach, grown)
            if self.events.intact_um[dose["event"]] > 0.0:
                left = self._prills_left(dose, layer, worn, wet)
            else:
                dose["eaten"][:, layer] += worn * dose["crowd"][:, layer]
                left = self._share_left(dose, dose["eaten"][:, layer])
                left = dose["start"][:, layer] * left
            left = np.minimum(np.where(left < SPENT, 0.0, left), before)
            acid += before - left
            dose["left"][:, layer] = left
        self.pool["sulfate"][:, layer] += acid
        return acid

    def _let_go(self, name: str, layer: int, half_time_d: Any) -> Array:
        held = self.pool[name][:, layer]
        gone = held * -np.expm1(-LN2 / half_time_d)
        gone = np.where(np.abs(held - gone) < SPENT, held, gone)
        self.pool[name][:, layer] = held - gone
        return gone

    def _living(self, day: int, layer: int, ph: Array) -> Array:
        m, laws = self.members, self.laws
        acid = self._let_go("organic", layer, m.organic_acid_half_time_d)
        acid = acid + self._let_go("decay", layer, m.decay_half_time_d)
        taken = self._let_go("nitrate", layer, laws.nitrate_uptake_half_time_d)
        acid = acid - m.nitrate_uptake_mol_mol * taken
        urea, ammonium = self.pool["urea"][:, layer], self.pool["ammonium"][:, layer]
        wet = np.maximum(0.0, self.weather.wetness[day, layer] + m.wetness_shift)
        dry = np.minimum(1.0, wet / laws.moisture_full)
        too_wet = np.maximum(0.0, 1.0 - ((wet - 1.0) / laws.moisture_wet_width) ** 2)
        air = np.where(wet > 1.0, too_wet, 1.0)
        temp = self.weather.soil_temp_c[day, layer]
        kelvin = temp + KELVIN_AT_0_C
        inverse = (1.0 / (25.0 + KELVIN_AT_0_C) - 1.0 / kelvin) / GAS_CONSTANT_KJ_MOL_K
        k_urea = m.urea_rate_per_d * np.exp(laws.urea_activation_energy_kj_mol * inverse) * dry
        warm = min(temp, laws.nitrification_flat_from_c)
        heat = (laws.nitrification_highest_c - temp) / (
            laws.nitrification_highest_c - laws.nitrification_flat_to_c
        )
        points = (laws.nitrification_ph_low, laws.nitrification_ph_middle)
        factors = (laws.nitrification_factor_low, laws.nitrification_factor_middle, 1.0)
        by_ph = np.interp(ph, (*points, laws.nitrification_ph_full), factors)
        speed = laws.nitrification_q10 ** ((warm - 25.0) / 10.0) * min(1.0, max(0.0, heat))
        k_made = m.nitrification_rate_per_d * speed * dry * air * by_ph
        k_lost = k_made + laws.ammonium_uptake_per_d
        urea_left, gap = np.exp(-k_urea), k_lost - k_urea
        safe = np.where(np.abs(gap) > 1.0e-9, gap, 1.0)
        two_step = np.where(
            np.abs(gap) > 1.0e-9, (urea_left - np.exp(-k_lost)) / safe, np.exp(-k_lost)
        )
        ammonium_left = ammonium * np.exp(-k_lost) + urea * k_urea * two_step
        urea_after = np.where(urea * urea_left < SPENT, 0.0, urea * urea_left)
        spent = (ammonium_left < SPENT) & (urea_after == 0.0)
        ammonium_left = np.where(spent, 0.0, ammonium_left)
        hydrolysed = urea - urea_after
        lost = np.maximum(0.0, ammonium + hydrolysed - ammonium_left)
        self.pool["urea"][:, layer] = urea_after
        self.pool["ammonium"][:, layer] = ammonium + hydrolysed - lost
        self.pool["nitrate"][:, layer] += lost
        protons = laws.acid_per_nh4_mol_mol - laws.acid_per_urea_n_mol_mol
        made = laws.acid_per_nh4_mol_mol * lost - protons * hydrolysed
        result: Array = acid + m.realised_frac * made
        return result

    def _gypsum(self, layer: int, ends: tuple[Array, Array]) -> Array:
        full = self.laws.gypsum_full_mmolc_kg * self.mass[:, layer]
        share = np.minimum(1.0, self.pool["sulfate"][:, layer] / full)
        return ends[0] - share * (ends[0] - ends[1])

    def _lime(self, layer: int, ph: Array) -> Array:
        held = np.concatenate((self.lime[:, layer], self.lime_on_top[:, layer]), axis=1)
        if not held.any():
            return np.zeros(self.members.n_members)
        m, laws = self.members, self.laws
        room = self._gypsum(layer, self.plateau) - self.base[:, layer]
        room = np.maximum(0.0, room * self.mass[:, layer])
        time = np.clip(m.plateau_ph - ph, 0.0, 1.0)
        acid = np.maximum(0.0, laws.lime_acid_below_ph - ph)
        time = time * np.exp(LN10 * m.lime_acid_exponent * acid)
        factors = np.array([getattr(laws, f"lime_class_factor_{i}") for i in range(1, 6)])
        rates = LN2 / (m.lime_half_time_d[:, None] * factors)
        rates = np.concatenate((rates, m.surface_lime_factor[:, None] * rates), axis=1)
        gone = held * -np.expm1(-rates * time[:, None])
        gone = np.where((held - gone < SPENT) & (time > 0.0)[:, None], held, gone)
        total = gone.sum(axis=1)
        cut = np.minimum(1.0, room / np.where(total > 0.0, total, 1.0))
        self.lime[:, layer] -= cut[:, None] * gone[:, :5]
        self.lime_on_top[:, layer] -= cut[:, None] * gone[:, 5:]
        given: Array = cut * total
        return given

    def _drain(self, layer: int, water_mm: float) -> Array:
        if water_mm <= 0.0:
            return np.zeros(self.members.n_members)
        laws, points = self.laws, self.curve.points
        step, t, width = self.curve.place(self.base[:, layer])
        ph = points[step] + t * (points[step + 1] - points[step])
        h = self._water(layer, ph)
        bicarbonate = self.co2_factor[layer] * self.bicarbonate / h
        aluminium = self.aluminium * h**3
        capped = bicarbonate >= laws.bicarbonate_highest_mmolc_l
        al_capped = aluminium >= laws.al_highest_mmolc_l
        slope = 1000.0 * h + np.where(capped, 0.0, bicarbonate)
        slope = LN10 * (slope + np.where(al_capped, 0.0, 3.0 * aluminium))
        slope = slope * slope_ratio(bicarbonate, anions_mmolc_l=self.members.anions_mmolc_l)
        content = np.where(capped, laws.bicarbonate_highest_mmolc_l, bicarbonate) - 1000.0 * h
        content = content - np.where(al_capped, laws.al_highest_mmolc_l, aluminium)
        off = ph - self.neutral[layer]
        chord = content / np.where(off == 0.0, 1.0, off)
        slope = np.where(content * off > 0.0, np.maximum(slope, chord), slope)
        water = self.members.transport_factor * water_mm
        stiff = water * slope * (points[1] - points[0]) / width / self.mass[:, layer]
        result: Array = water * content / (1.0 + stiff)
        return result

    def _carbonate(self, layer: int) -> None:
        m, mass = self.members, self.mass[:, layer]
        lime, base = self.carbonate[:, layer].copy(), self.base[:, layer].copy()
        aim = self._gypsum(layer, self.plateau)
        reacts = (lime > 0.0) & (base < aim)
        fallen = np.where(base > aim, (base - aim) * mass, 0.0)
        fallen = fallen * -np.expm1(-m.carbonate_rate_per_d)
        lime, base = lime + fallen, base - fallen / mass
        if reacts.any():
            ph = np.minimum(7.0, self.curve.ph(base))
            g = np.exp(LN10 * m.carbonate_acid_exponent * (7.0 - ph))
            rate = m.carbonate_rate_per_d
            parts = np.where(ph < 7.0, 1 + np.minimum(4.0 * rate * g, 23.0).astype(int), 1)
            for part in range(int(parts[reacts].max())):
                live = reacts & (part < parts) & (lime > 0.0)
                given = (aim - base) * mass * -np.expm1(-rate * g / parts)
                given = np.where(live, np.minimum(lime, np.maximum(0.0, given)), 0.0)
                lime, base = lime - given, base + given / mass
                ph = np.minimum(7.0, self.curve.ph(base))
                g = np.exp(LN10 * m.carbonate_acid_exponent * (7.0 - ph))
            spent = reacts & (lime < SPENT)
            base = np.where(spent, base + lime / mass, base)
            lime = np.where(spent, 0.0, lime)
        self.carbonate[:, layer], self.base[:, layer] = lime, base
