"""The priors of the column: which row of the parameter table each member is drawn from."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache, lru_cache
from typing import Final

import numpy as np
from numpy.typing import NDArray

from loamshift.core.ensemble import draw_members
from loamshift.core.nitrogen_share import BARE, realised_row, unreturned_row
from loamshift.domain.humus import HumusHistory
from loamshift.domain.soil import Soil
from loamshift.errors import InputError
from loamshift.services.belief.humus import humus_parameters, humus_rows
from loamshift.services.belief.member_parameters import BedNumbers, parameters_from
from loamshift.services.belief.member_parameters import (
    carbonate_quantile_pct as carbonate_quantile_pct,
)
from loamshift.services.belief.members import Cause as Cause
from loamshift.services.belief.members import Members as Members
from loamshift.services.belief.members import at_scale as at_scale
from loamshift.services.belief.members import parameters_of as parameters_of
from loamshift.services.context.air import air_acid
from loamshift.services.context.water import anions_row
from loamshift.tables.parameters import load_parameters

FloatArray = NDArray[np.float64]
PriorRow = tuple[float, float, bool, float, float]

SD_IN_95_PCT: Final = 2.0 * 1.959964
"""Standard deviations from one end of a central 95 % range to the other."""
UNKNOWN_YEAR: Final = 2020
"""Year whose spread of the air counts where no place is told; it hardly changes [yr]."""
CUT_OFF_SD: Final = 3.0
"""No member lies farther out than this many standard deviations."""
_KEPT_DRAWS: Final = 64
"""Sets of draws kept for the next bed: one a seed, number of members and kind of bed [count]."""


class Shape(StrEnum):
    """What a prior looks like."""

    LOGNORMAL = "lognormal"
    """The range of the row is the central 95 %."""
    SHARE = "share"
    """Lognormal, and never above 1."""
    NORMAL = "normal"
    """With the sd of the row, or that of its central 95 % range."""
    WITHIN = "normal within the range"
    """Normal with the sd of the row; its range is a hard limit."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Prior:
    """One parameter of the ensemble: its row, its shape, and what it is called in a sentence."""

    topic: str
    name: str
    shape: Shape
    cause: Cause


PRIORS: Final[Mapping[str, Prior]] = {
    field: Prior(topic=topic, name=name, shape=shape, cause=cause)
    for field, topic, name, shape, cause in (
        ("mass_factor", "column", "bulk_density_factor", Shape.NORMAL, Cause.SOIL_MASS),
        ("plateau", "column", "carbonate_plateau_ph", Shape.NORMAL, Cause.CARBONATE),
        (
            "carbonate_rate_per_d",
            "column",
            "carbonate_rate_per_d",
            Shape.LOGNORMAL,
            Cause.CARBONATE,
        ),
        (
            "carbonate_acid_exponent",
            "column",
            "carbonate_acid_exponent",
            Shape.NORMAL,
            Cause.CARBONATE,
        ),
        ("gypsum_drop_ph", "column", "gypsum_drop_ph", Shape.NORMAL, Cause.CARBONATE),
        ("flux_pco2_atm", "column", "flux_pco2_atm", Shape.LOGNORMAL, Cause.LEACHING),
        ("transport_factor", "column", "transport_factor", Shape.LOGNORMAL, Cause.LEACHING),
        ("al_log10_k", "buffer", "al_solubility_log10_k", Shape.NORMAL, Cause.LEACHING),
        ("wetness_shift", "column", "wetness_shift", Shape.NORMAL, Cause.WETNESS),
        ("sulfur_rate_ug_cm2_d", "sulfur", "rate_ug_cm2_d", Shape.LOGNORMAL, Cause.SULFUR),
        (
            "sulfur_crowding_exponent",
            "sulfur",
            "crowding_exponent",
            Shape.WITHIN,
            Cause.SULFUR,
        ),
        (
            "sulfur_activation_energy_kj_mol",
            "sulfur",
            "activation_energy_kj_mol",
            Shape.WITHIN,
            Cause.SULFUR,
        ),
        ("sulfur_growth_per_d", "sulfur", "growth_per_d", Shape.LOGNORMAL, Cause.SULFUR),
        ("break_up_z", "sulfur", "break_up_z", Shape.NORMAL, Cause.SULFUR),
        (
            "nitrification_rate_per_d",
            "nitrogen",
            "nitrification_rate_per_d",
            Shape.LOGNORMAL,
            Cause.NITROGEN,
        ),
        ("urea_rate_per_d", "nitrogen", "urea_rate_per_d", Shape.LOGNORMAL, Cause.NITROGEN),
        ("realised_frac", "ledger", "realised_field_frac", Shape.SHARE, Cause.NITROGEN),
        ("unreturned_frac", "ledger", "unreturned_bed_frac", Shape.SHARE, Cause.NITROGEN),
        (
            "background_mmolc_m2_year",
            "ledger",
            "background_unknown_mmolc_m2",
            Shape.LOGNORMAL,
            Cause.LEACHING,
        ),
        (
            "weathering_mmolc_m2_year",
            "ledger",
            "weathering_mmolc_m2",
            Shape.LOGNORMAL,
            Cause.LEACHING,
        ),
        ("lime_half_time_d", "lime", "half_time_d", Shape.LOGNORMAL, Cause.LIME),
        ("lime_acid_exponent", "column", "lime_acid_exponent", Shape.WITHIN, Cause.LIME),
        ("lime_field_efficiency", "lime", "field_efficiency", Shape.LOGNORMAL, Cause.LIME),
        ("fast_salt_half_time_d", "advice", "fast_salt_half_time_d", Shape.LOGNORMAL, Cause.SALTS),
        (
            "organic_acid_half_time_d",
            "advice",
            "organic_acid_half_time_d",
            Shape.LOGNORMAL,
            Cause.SALTS,
        ),
        ("decay_half_time_d", "advice", "decay_half_time_d", Shape.LOGNORMAL, Cause.SALTS),
        (
            "background_rise_per_ph",
            "ledger",
            "background_rise_per_ph",
            Shape.NORMAL,
            Cause.LEACHING,
        ),
        ("surface_lime_factor", "advice", "surface_lime_rate_frac", Shape.SHARE, Cause.LIME),
        ("reactive_frac", "column", "reactive_carbonate_frac", Shape.SHARE, Cause.CARBONATE),
    )
}
"""What is drawn, in order; a new one goes to the end, or the members of old seeds change."""

LATER: Final[tuple[tuple[str, Cause], ...]] = (
    ("air_factor", Cause.LEACHING),
    ("anions_mmolc_l", Cause.LEACHING),
    ("sulfur_ramp_from_c", Cause.SULFUR),
    ("sulfur_grown_z", Cause.SULFUR),
)
"""What is drawn last, behind what older seeds draw, with what its width comes from."""

_OWN: Final = ("log10_k", "start_ph_shift", "carbonate", "reading_z")
"""Drawn beside the rows: they hang on the bed."""
_BACKGROUND: Final = {
    "unknown": "background_unknown_mmolc_m2",
    "unfed": "background_unfed_mmolc_m2",
    "garden": "background_garden_mmolc_m2",
    "lawn": "background_lawn_mmolc_m2",
    "low crop": "background_low_crop_mmolc_m2",
    "high crop": "background_high_crop_mmolc_m2",
}


def draw_soil_members(
    soil: Soil,
    *,
    members: int,
    rng: np.random.Generator | int,
    land_use: str = "unknown",
    in_pot: bool = False,
    water_known: bool = True,
    rotting: str = "decay_half_time_d",
    organic_acid: str = "organic_acid_half_time_d",
    humus: HumusHistory | None = None,
    years_back: float = 0.0,
    air_spread: float | None = None,
    is_fed: bool = False,
    water_anions_mmolc_l: float = 0.0,
) -> Members:
    """Possible beds behind what is known of one.

    Parameters
    ----------
    members
        How many, 1 or more [count].
    rng
        Generator, or the seed of one whose draws are kept for the next bed.
    in_pot
        True for pots, where all acid of nitrogen counts, no rock weathers, and the yearly load
        and the air's part beside it are left out: they were measured in fields.
    water_known
        False where the alkalinity of the watering had to be guessed.
    humus
        What is known of humus that rots beyond what the use gives back; None where none does.
    years_back
        Years from the first day of the run to today [yr].
    air_spread
        Factor that bounds 95 in 100 sites of the place's acid from the air; None for that of a
        place nobody told [-].
    is_fed
        True where a feed is told, which makes the water of pots salty.
    water_anions_mmolc_l
        What the watering adds to the anions of draining water [mmolc/L].

    Raises
    ------
    InputError
        For an unknown use of the land.

    Notes
    -----
    One Latin hypercube over all priors, the scale k of the buffer curve, the error of the first
    reading, the free carbonate and the error of a further reading. Free carbonate takes its
    place by a normal draw turned into the quantile of the belief. Where lime is free in the soil
    it holds the pH it was found at, up to a limit, with the share of it that is fine; the rest
    lies in coarse grains. Where none is, the general plateau counts, and never less than the pH
    found: nothing falls out of a soil that is left alone. A soil that reads below what calcite
    allows under root-zone carbon dioxide is not held by its lime: what a test finds there lies
    unreacted in coarse grains, and the general plateau counts. Water of no known alkalinity is
    soft, middling or hard by the weights of the verdict. What humus draws comes last. On ground
    kept bare nothing takes nitrogen up, so the shares of its acid are its own.

    References
    ----------
    mckay-1979, rowley-2019, own-judgement
    """
    priors = priors_of(
        land_use=land_use,
        in_pot=in_pot,
        water_known=water_known,
        rotting=rotting,
        organic_acid=organic_acid,
        humus=humus,
        air_spread=air_spread,
        is_fed=is_fed,
    )
    if isinstance(rng, int):
        drawn = _kept_draws(priors.rows, members, rng).copy()
    else:
        drawn = _draws(priors.rows, members, rng)
    drawn[:, 0] = soil.k.log10_k_mean + soil.k.log10_k_sd * drawn[:, 0]
    drawn[:, 1] = soil.ph.ph_water_sd * drawn[:, 1]
    value = dict(zip(priors.names, drawn.T, strict=True))
    parameters = parameters_from(
        value,
        bed=BedNumbers(
            ph_water=soil.ph.ph_water,
            log10_k_usual=soil.k.log10_k_mean,
            in_pot=in_pot,
            water_known=water_known,
            keeps_bare=priors.keeps_bare,
            water_anions_mmolc_l=water_anions_mmolc_l,
        ),
        carbonate_pct=carbonate_quantile_pct(soil.carbonate, value["carbonate"]),
        humus={}
        if humus is None
        else humus_parameters(
            humus, {name: value[name] for name in priors.of_humus}, soil=soil, years_back=years_back
        ),
    )
    return Members(parameters, priors.causes, drawn, value["reading_z"])


@lru_cache(maxsize=_KEPT_DRAWS)
def _kept_draws(rows: tuple[PriorRow, ...], members: int, seed: int) -> FloatArray:
    """The draws of a seed, kept for the next bed of which the same is drawn."""
    drawn = _draws(rows, members, np.random.default_rng(seed))
    drawn.flags.writeable = False
    return drawn


def _draws(rows: tuple[PriorRow, ...], members: int, rng: np.random.Generator) -> FloatArray:
    """Draws by member and prior; those that hang on the bed, the first two, as standard normals."""
    standard = _normal(centre=0.0, sd=1.0)
    centre, spread, logged, low, high = zip(standard, standard, *rows[2:], strict=True)
    return draw_members(
        centre, spread, lognormal=logged, low=low, high=high, n_members=members, rng=rng
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class PriorRows:
    """What is drawn for a kind of bed, in order: names, causes and rows.

    A row is centre, spread, whether lognormal, lowest and highest; those of the scale and of the
    first reading hang on the bed and hold no spread here. ``of_humus`` names what is drawn of
    humus that rots.
    """

    names: tuple[str, ...]
    causes: tuple[Cause, ...]
    rows: tuple[PriorRow, ...]
    of_humus: tuple[str, ...]
    keeps_bare: bool


@lru_cache(maxsize=1024)
def priors_of(
    *,
    land_use: str,
    in_pot: bool,
    water_known: bool,
    rotting: str,
    organic_acid: str,
    humus: HumusHistory | None,
    air_spread: float | None,
    is_fed: bool,
) -> PriorRows:
    """What is drawn for a kind of bed; see :func:`draw_soil_members` for what tells the kind.

    Parameters
    ----------
    air_spread
        Factor that bounds 95 in 100 sites of the place's acid from the air [-].

    Raises
    ------
    InputError
        For an unknown use of the land.
    """
    if land_use not in _BACKGROUND:
        raise InputError(f"land_use {land_use!r} is not known; use one of {', '.join(_BACKGROUND)}")
    chosen = dict(PRIORS)
    nitrogen_use = BARE if humus is not None and humus.kept_bare else land_use
    swaps = {
        "background_mmolc_m2_year": _BACKGROUND[land_use],
        "decay_half_time_d": rotting,
        "organic_acid_half_time_d": organic_acid,
        "realised_frac": realised_row(nitrogen_use, in_pot=in_pot),
        "unreturned_frac": unreturned_row(nitrogen_use, in_pot=in_pot),
    }
    for field, name in swaps.items():
        old = chosen[field]
        chosen[field] = Prior(topic=old.topic, name=name, shape=old.shape, cause=old.cause)
    of_humus = {} if humus is None else _humus_priors(humus)
    rows = (
        _normal(centre=0.0, sd=0.0),
        _normal(centre=0.0, sd=0.0),
        _normal(centre=0.0, sd=1.0),
        _normal(centre=0.0, sd=1.0),
        *(_numbers(prior) for prior in chosen.values()),
        _normal(centre=0.0, sd=0.0 if water_known else 1.0),
        *(_numbers(prior) for prior in of_humus.values()),
        _about_one(air_acid(None, year=UNKNOWN_YEAR).spread if air_spread is None else air_spread),
        _numbers(
            Prior(
                topic="column",
                name=anions_row(land_use, in_pot=in_pot, is_fed=is_fed),
                shape=Shape.LOGNORMAL,
                cause=Cause.LEACHING,
            )
        ),
        *(
            _numbers(Prior(topic="sulfur", name=name, shape=shape, cause=Cause.SULFUR))
            for name, shape in (("ramp_from_c", Shape.WITHIN), ("grown_z", Shape.NORMAL))
        ),
    )
    causes = (
        Cause.BUFFERING,
        Cause.FIRST_READING,
        Cause.CARBONATE,
        Cause.NEXT_READING,
        *(prior.cause for prior in chosen.values()),
        Cause.ALKALINITY,
        *(prior.cause for prior in of_humus.values()),
        *(cause for _, cause in LATER),
    )
    later = tuple(name for name, _ in LATER)
    return PriorRows(
        names=(*_OWN, *chosen, "alkalinity", *of_humus, *later),
        causes=causes,
        rows=rows,
        of_humus=tuple(of_humus),
        keeps_bare=nitrogen_use == BARE,
    )


def _normal(*, centre: float, sd: float) -> PriorRow:
    """A normal prior without bounds."""
    return centre, sd, False, -math.inf, math.inf


def _humus_priors(history: HumusHistory) -> dict[str, Prior]:
    """What is drawn for humus that rots, by what it is."""
    return {
        what: Prior(
            topic="humus",
            name=row,
            shape=Shape.SHARE if row.endswith("_frac") else Shape.LOGNORMAL,
            cause=Cause.HUMUS,
        )
        for what, row in humus_rows(history).items()
    }


def _about_one(spread: float) -> PriorRow:
    """Centre, spread, whether lognormal, and bounds of a factor about 1."""
    sd = math.log(spread) / (0.5 * SD_IN_95_PCT)
    reach = math.exp(CUT_OFF_SD * sd)
    return 1.0, sd, True, 1.0 / reach, reach


@cache
def _numbers(prior: Prior) -> PriorRow:
    """Centre, spread, whether lognormal, and bounds of one prior."""
    row = load_parameters()[prior.topic][prior.name]
    middle = row.value
    if row.low is None or row.high is None:
        raise InputError(f"{prior.topic}.{prior.name} has no range to draw from; give low and high")
    if prior.shape in (Shape.LOGNORMAL, Shape.SHARE) and row.high > middle:
        sd = math.log(row.high / row.low) / SD_IN_95_PCT
        reach = math.exp(CUT_OFF_SD * sd)
        top = 1.0 if prior.shape is Shape.SHARE else middle * reach
        return middle, sd, True, middle / reach, max(top, middle)
    sd = row.sd if row.sd is not None else (row.high - row.low) / SD_IN_95_PCT
    if prior.shape is Shape.WITHIN or prior.shape is Shape.SHARE:
        return middle, sd, False, row.low, row.high
    return middle, sd, False, middle - CUT_OFF_SD * sd, middle + CUT_OFF_SD * sd
