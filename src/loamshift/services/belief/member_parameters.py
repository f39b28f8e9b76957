"""From what was drawn to the parameters of the column's members, of one bed or of many."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from loamshift.core.background import load_at_scale
from loamshift.core.column_layout import MEMBER_FIELDS, MemberParameters
from loamshift.core.need import WHOLE_PCT
from loamshift.core.nitrogen_share import humus_rest
from loamshift.domain.soil import CarbonateBelief
from loamshift.services.belief.humus import HUMUS_FIELDS
from loamshift.tables.model import ledger_parameters, verdict_values
from loamshift.tables.parameters import parameter_values

FloatArray = NDArray[np.float64]
Number = float | FloatArray
Truth = bool | NDArray[np.bool_]


@dataclass(frozen=True, slots=True, kw_only=True)
class BedNumbers:
    """What the members of a bed are made with; of many beds one number for each member.

    ``ph_water`` [pH in water]; ``log10_k_usual`` middle of what is believed of the scale [log10];
    ``water_anions_mmolc_l`` what the watering adds [mmolc/L]; ``keeps_bare`` where nothing takes
    nitrogen up.
    """

    ph_water: Number
    log10_k_usual: Number
    in_pot: Truth
    water_known: Truth
    keeps_bare: Truth
    water_anions_mmolc_l: Number


def parameters_from(
    value: Mapping[str, FloatArray],
    *,
    bed: BedNumbers,
    carbonate_pct: FloatArray,
    humus: Mapping[str, FloatArray],
) -> MemberParameters:
    """The parameters of members from their draws.

    Parameters
    ----------
    value
        Draws by name, each of shape (n_members,) [of the parameter].
    bed
        Of the bed, or of the bed of each member [see the dataclass].
    carbonate_pct
        Free carbonate of each member, shape (n_members,) [% CaCO3].
    humus
        ``HUMUS_FIELDS`` of each member; empty where no humus rots [as named there].

    Notes
    -----
    Where lime is free in the soil it holds the pH it was found at, up to a limit; see
    ``column_priors.draw_soil_members``. Whether it does goes by the pH that each bed may have and
    not by the one reading, so that a tenth in the reading does not turn all beds over at once. In
    pots the loads of fields are left out.
    """
    members = carbonate_pct.size
    column = parameter_values("column")
    of_field = np.where(bed.in_pot, 0.0, 1.0)
    start = np.minimum(
        bed.ph_water + value["start_ph_shift"], column["carbonate_plateau_highest_ph"]
    )
    held_by_lime = start >= column["carbonate_plateau_lowest_ph"]
    background = load_at_scale(
        value["background_mmolc_m2_year"],
        log10_k=value["log10_k"],
        log10_k_usual=bed.log10_k_usual,
        params=ledger_parameters(),
    )
    alkalinity = np.ones(members)
    unknown = np.broadcast_to(~np.asarray(bed.water_known), (members,))
    if unknown.any():
        alkalinity[unknown] = guessed_alkalinity(value["alkalinity"][unknown])
    rest = humus_rest(realised=value["realised_frac"], unreturned=value["unreturned_frac"])
    made = {
        "carbonate_factor": carbonate_pct,
        "coarse_carbonate_frac": 1.0 - value["reactive_frac"] * held_by_lime,
        "plateau_ph": np.where(
            held_by_lime & (carbonate_pct > 0.0), start, np.maximum(start, value["plateau"])
        ),
        "alkalinity_factor": alkalinity,
        "anions_mmolc_l": value["anions_mmolc_l"] + bed.water_anions_mmolc_l * alkalinity,
        "background_mmolc_m2_year": background * of_field,
        "weathering_mmolc_m2_year": value["weathering_mmolc_m2_year"] * of_field,
        "air_factor": value["air_factor"] * of_field,
        "nitrate_uptake_mol_mol": value["realised_frac"] * (1.0 - value["unreturned_frac"]),
        "humus_rest_mol_mol": np.where(bed.keeps_bare, 0.0, rest),
        **(humus or dict.fromkeys(HUMUS_FIELDS, np.zeros(members))),
    }
    return MemberParameters(
        **{
            name: np.ascontiguousarray(made[name] if name in made else value[name])
            for name in MEMBER_FIELDS
        }
    )


def carbonate_quantile_pct(belief: CarbonateBelief, z: FloatArray) -> FloatArray:
    """Free carbonate of each member from a normal draw.

    Parameters
    ----------
    z
        Standard normal draws, shape (n_members,) [1].

    Returns
    -------
    ndarray
        Content, shape (n_members,) [% CaCO3].
    """
    if not belief.is_possible:
        return np.zeros_like(z)
    if belief.low_pct == belief.high_pct and belief.zero_weight == 0.0:
        return np.minimum(belief.high_pct * np.exp(belief.log_sd * z), WHOLE_PCT)
    share = normal_share(z)
    rest = np.clip((share - belief.zero_weight) / (1.0 - belief.zero_weight), 0.0, 1.0)
    low, high = math.log(belief.low_pct), math.log(belief.high_pct)
    return np.where(share < belief.zero_weight, 0.0, np.exp(low + (high - low) * rest))


def guessed_alkalinity(z: FloatArray) -> FloatArray:
    """Alkalinity of unknown water over the middle guess, from normal draws.

    Parameters
    ----------
    z
        Standard normal draws, shape (n,) [1].
    """
    limits = verdict_values()
    guesses = [limits[f"assumed_alkalinity_{name}"] for name in ("low", "mid", "high")]
    weights = [limits[f"assumed_alkalinity_{name}_weight"] for name in ("low", "mid", "high")]
    middles = np.cumsum(weights) - 0.5 * np.asarray(weights)
    logged = np.interp(
        normal_share(z), middles, [math.log(guess / guesses[1]) for guess in guesses]
    )
    return np.asarray(np.exp(logged), dtype=np.float64)


def normal_share(z: FloatArray) -> FloatArray:
    """Share of a standard normal distribution below each value.

    Parameters
    ----------
    z
        Values, any shape [1].
    """
    found = [0.5 * (1.0 + math.erf(one / math.sqrt(2.0))) for one in z.ravel()]
    return np.array(found).reshape(z.shape)
