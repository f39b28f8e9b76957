"""What texture and organic matter say of a topsoil nobody weighed: density, water, carbon."""

from __future__ import annotations

import math
from dataclasses import dataclass

from loamshift.errors import OutOfRangeError


@dataclass(frozen=True, slots=True, kw_only=True)
class TopsoilParameters:
    """Coefficients of density and carbon; rows of topic ``topsoil``.

    ``organic_density_g_cm3`` of organic matter alone [g/cm3]; ``mineral_density_*`` the plane of
    the density of the mineral part over sand and clay [g/cm3, g/cm3/%]; ``carbon_*`` that of
    usual organic carbon [%, %/%]; ``sand_*`` the line of usual sand over clay [%, %/%];
    ``organic_fitted_carbon_pct`` where the curve's organic term was fitted [%];
    ``organic_carbon_of_peat_pct`` [%]; ``organic_power`` [-]; ``log10_k_sd_peat`` [log10].
    """

    organic_density_g_cm3: float
    mineral_density_g_cm3: float
    mineral_density_per_sand: float
    mineral_density_per_clay: float
    carbon_pct: float
    carbon_per_sand: float
    carbon_per_clay: float
    sand_pct: float
    sand_per_clay: float
    organic_fitted_carbon_pct: float
    organic_carbon_of_peat_pct: float
    organic_power: float
    log10_k_sd_peat: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilWaterParameters:
    """Coefficients of water contents; rows of topic ``soil_water``, named as in their source.

    ``field_*`` for 33 kPa, ``wilting_*`` for 1500 kPa; sand and clay as shares [0-1], organic
    matter [%]; ``clay_highest_pct`` and ``organic_highest_pct`` where the source ends [%].
    """

    field_constant: float
    field_sand: float
    field_clay: float
    field_organic: float
    field_sand_organic: float
    field_clay_organic: float
    field_sand_clay: float
    field_square: float
    field_slope: float
    field_shift: float
    wilting_constant: float
    wilting_sand: float
    wilting_clay: float
    wilting_organic: float
    wilting_sand_organic: float
    wilting_clay_organic: float
    wilting_sand_clay: float
    wilting_slope: float
    wilting_shift: float
    clay_highest_pct: float
    organic_highest_pct: float


def mineral_density_g_cm3(*, sand_pct: float, clay_pct: float, params: TopsoilParameters) -> float:
    """Bulk density that the mineral part of a topsoil would have without its organic matter.

    Parameters
    ----------
    sand_pct
        Sand of the mineral part, 0 to 100 [%].
    clay_pct
        Clay of the mineral part, 0 to 100 [%].
    params
        Coefficients, topic ``topsoil`` [see class].

    Returns
    -------
    float
        Density [g/cm3].

    Notes
    -----
    A plane through the twelve texture classes of the shipped table, off by 0.03 at most.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = TopsoilParameters(**parameter_values("topsoil"))
    >>> round(mineral_density_g_cm3(sand_pct=40.0, clay_pct=20.0, params=p), 2)
    1.53
    """
    return (
        params.mineral_density_g_cm3
        + params.mineral_density_per_sand * sand_pct
        + params.mineral_density_per_clay * clay_pct
    )


def mineral_density_from_bulk_g_cm3(
    *, bulk_density_g_cm3: float, organic_matter_pct: float, params: TopsoilParameters
) -> float:
    """The density of the mineral part of a soil whose bulk density and organic matter are known.

    Parameters
    ----------
    bulk_density_g_cm3
        Dry bulk density, above that of organic matter [g/cm3].
    organic_matter_pct
        Organic matter, 0 to below 100 [%].
    params
        Coefficients, topic ``topsoil`` [see class].

    Returns
    -------
    float
        Density [g/cm3].

    Raises
    ------
    OutOfRangeError
        Where the organic matter alone would fill more room than the soil.

    Notes
    -----
    The mixing law of ``bulk_density_g_cm3`` turned round.

    References
    ----------
    adams-1973, federer-1993

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = TopsoilParameters(**parameter_values("topsoil"))
    >>> round(mineral_density_from_bulk_g_cm3(bulk_density_g_cm3=1.35, organic_matter_pct=2.586,
    ...                                       params=p), 2)
    1.56
    """
    share = organic_matter_pct / 100.0
    room = 1.0 / bulk_density_g_cm3 - share / params.organic_density_g_cm3
    if not room > 0.0:
        raise OutOfRangeError(
            f"{organic_matter_pct:g} % of organic matter fills more room than a soil of "
            f"{bulk_density_g_cm3:g} g/cm3 has; check both"
        )
    return (1.0 - share) / room


def bulk_density_g_cm3(
    *, mineral_g_cm3: float, organic_matter_pct: float, params: TopsoilParameters
) -> float:
    """Dry bulk density of a topsoil from its mineral part and its organic matter.

    Answers what a soil weighs that nobody weighed: the more humus, the lighter. Compaction and
    stones are left out, and so are bagged mixes, which lie looser than any topsoil.

    Parameters
    ----------
    mineral_g_cm3
        Density of the mineral part alone [g/cm3].
    organic_matter_pct
        Organic matter, 0 to 100 [%].
    params
        Coefficients, topic ``topsoil`` [see class].

    Returns
    -------
    float
        Density [g/cm3].

    Raises
    ------
    OutOfRangeError
        Where the organic matter is no share.

    Notes
    -----
    The volumes of the two parts are additive: 1/rho = OM/rho_o + (1 - OM)/rho_m. Against 368
    topsoils of the Dutch soil map with 1 to 80 % of organic matter: 6 % too light in the mean,
    sd 9 %. Forest floors are lighter (rho_o 0.11).

    References
    ----------
    adams-1973, federer-1993, perie-ouimet-2008

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = TopsoilParameters(**parameter_values("topsoil"))
    >>> [round(bulk_density_g_cm3(mineral_g_cm3=1.55, organic_matter_pct=om, params=p), 2)
    ...  for om in (0.0, 3.0, 10.0, 50.0)]
    [1.55, 1.32, 0.97, 0.39]
    """
    if not 0.0 <= organic_matter_pct <= 100.0:
        raise OutOfRangeError(
            f"organic_matter_pct = {organic_matter_pct:g} must lie between 0 and 100"
        )
    share = organic_matter_pct / 100.0
    return 1.0 / (share / params.organic_density_g_cm3 + (1.0 - share) / mineral_g_cm3)


def usual_carbon_pct(*, sand_pct: float, clay_pct: float, params: TopsoilParameters) -> float:
    """Organic carbon that a garden topsoil of this texture usually has.

    Parameters
    ----------
    sand_pct
        Sand, 0 to 100 [%].
    clay_pct
        Clay, 0 to 100 [%].
    params
        Coefficients, topic ``topsoil`` [see class].

    Returns
    -------
    float
        Organic carbon [%].

    Notes
    -----
    A plane through the twelve texture classes of the shipped table, off by 0.1 at most.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = TopsoilParameters(**parameter_values("topsoil"))
    >>> round(usual_carbon_pct(sand_pct=40.0, clay_pct=20.0, params=p), 1)
    1.4
    """
    return params.carbon_pct + params.carbon_per_sand * sand_pct + params.carbon_per_clay * clay_pct


def usual_sand_pct(*, clay_pct: float, params: TopsoilParameters) -> float:
    """Sand that goes with a clay content, where only the clay was measured.

    Parameters
    ----------
    clay_pct
        Clay, 0 to 100 [%].
    params
        Coefficients, topic ``topsoil`` [see class].

    Returns
    -------
    float
        Sand, never more than what is left beside the clay [%].

    Notes
    -----
    A line through the twelve texture classes of the shipped table.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = TopsoilParameters(**parameter_values("topsoil"))
    >>> round(usual_sand_pct(clay_pct=20.0, params=p))
    44
    """
    line = params.sand_pct + params.sand_per_clay * clay_pct
    return min(max(line, 0.0), 100.0 - clay_pct)


def organic_log10_k(*, organic_carbon_pct: float, params: TopsoilParameters) -> tuple[float, float]:
    """Where the scale of a very humous soil lies, and how much less sure it is.

    Answers how far the organic term of the buffer curve may be carried beyond the carbon it was
    fitted on; nothing changes below that.

    Parameters
    ----------
    organic_carbon_pct
        Organic carbon, 0 to 100 [%].
    params
        Coefficients, topic ``topsoil`` [see class].

    Returns
    -------
    tuple of float
        Shift of log10 k and the sd it adds in variance [log10].

    Notes
    -----
    -power log10(OC / OC0) above OC0, so that buffering grows as OC^(1 - power); the sd rises in
    the same logarithm to its row at the carbon of peat. Measured: raw peat 0.63 of linear growth,
    organic horizons 98 to 408 mmolc/kg/pH, which is about a quarter to all of it.

    References
    ----------
    starr-1996, marrush-2007, own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = TopsoilParameters(**parameter_values("topsoil"))
    >>> organic_log10_k(organic_carbon_pct=3.0, params=p)
    (0.0, 0.0)
    >>> [round(x, 2) for x in organic_log10_k(organic_carbon_pct=48.0, params=p)]
    [-0.06, 0.15]
    """
    if organic_carbon_pct <= params.organic_fitted_carbon_pct:
        return 0.0, 0.0
    decades = math.log10(organic_carbon_pct / params.organic_fitted_carbon_pct)
    to_peat = math.log10(params.organic_carbon_of_peat_pct / params.organic_fitted_carbon_pct)
    return -params.organic_power * decades, params.log10_k_sd_peat * decades / to_peat


def water_contents_frac(
    *, sand_pct: float, clay_pct: float, organic_matter_pct: float, params: SoilWaterParameters
) -> tuple[float, float]:
    """Field capacity and wilting point of a soil from its texture and organic matter.

    Parameters
    ----------
    sand_pct
        Sand, 0 to 100 [%].
    clay_pct
        Clay, 0 to 100 [%].
    organic_matter_pct
        Organic matter, 0 to 100 [%].
    params
        Coefficients, topic ``soil_water`` [see class].

    Returns
    -------
    tuple of float
        Water at 33 kPa and at 1500 kPa [m3/m3].

    Notes
    -----
    Equations 1 and 2 of the source. Clay over 60 % and organic matter over 8 % lie outside its
    soils and are taken as these limits.

    References
    ----------
    saxton-rawls-2006

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = SoilWaterParameters(**parameter_values("soil_water"))
    >>> [round(x, 2) for x in water_contents_frac(sand_pct=40.0, clay_pct=20.0,
    ...                                           organic_matter_pct=2.5, params=p)]
    [0.28, 0.14]
    """
    sand = sand_pct / 100.0
    clay = min(clay_pct, params.clay_highest_pct) / 100.0
    organic = min(organic_matter_pct, params.organic_highest_pct)
    first = (
        params.field_constant
        + params.field_sand * sand
        + params.field_clay * clay
        + params.field_organic * organic
        + params.field_sand_organic * sand * organic
        + params.field_clay_organic * clay * organic
        + params.field_sand_clay * sand * clay
    )
    field = first + params.field_square * first**2 + params.field_slope * first + params.field_shift
    dry = (
        params.wilting_constant
        + params.wilting_sand * sand
        + params.wilting_clay * clay
        + params.wilting_organic * organic
        + params.wilting_sand_organic * sand * organic
        + params.wilting_clay_organic * clay * organic
        + params.wilting_sand_clay * sand * clay
    )
    return field, params.wilting_slope * dry + params.wilting_shift
