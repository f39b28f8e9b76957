"""The yearly ledger of acid on one square metre: what pulls the pH, and which way.

Every line is in mmolc per m2 and year; acid is positive, base negative.
"""

from __future__ import annotations

from loamshift.core.background import LedgerParameters, air_in_loads, background_acid_mmolc_m2
from loamshift.core.carbonate import rain_ph
from loamshift.core.equilibrium import CarbonateParameters
from loamshift.core.irrigation import water_base_mmolc_m2
from loamshift.core.limits import require_amount
from loamshift.core.nitrogen_share import nitrogen_shares
from loamshift.errors import OutOfRangeError
from loamshift.units import NITROGEN_G_MOL, acid_mmolc_m2_from_sulfur_as_s_g_m2


def water_acid_mmolc_m2(*, alkalinity_mmolc_l: float, water_mm: float) -> float:
    """Line of the irrigation water: base, so never positive.

    Parameters
    ----------
    alkalinity_mmolc_l
        Alkalinity of the water, 0 or more [mmolc/L].
    water_mm
        Watering of the year, 0 or more [mm].

    Returns
    -------
    float
        Acid, zero or negative [mmolc/m2/year].

    Raises
    ------
    OutOfRangeError
        For a negative amount.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> water_acid_mmolc_m2(alkalinity_mmolc_l=4.0, water_mm=300.0)
    -1200.0
    """
    return 0.0 - water_base_mmolc_m2(alkalinity_mmolc_l=alkalinity_mmolc_l, water_mm=water_mm)


def rain_carbonic_acid_mmolc_m2(
    *, rain_mm: float, temp_c: float, params: CarbonateParameters
) -> float:
    """Line of the carbonic acid in rain: shown because it is asked about, and because it is tiny.

    Parameters
    ----------
    rain_mm
        Rain of the year, 0 or more [mm].
    temp_c
        Temperature of the rain, 0 to 40 [degC].
    params
        Coefficients of the topic ``carbonate`` [see the dataclass].

    Returns
    -------
    float
        Acid [mmolc/m2/year].

    Raises
    ------
    OutOfRangeError
        For negative rain or a temperature outside 0 to 40.

    Notes
    -----
    Rain times 10^-pH of rain in balance with the air. 700 mm bring 2 mmolc/m2; 1 % free lime in
    15 cm of loam holds 40,000. The carbonic acid that counts is made by roots in the soil, and
    stands in the background line.

    References
    ----------
    plummer-busenberg-1982, own-arithmetic

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = CarbonateParameters(**parameter_values("carbonate"))
    >>> round(rain_carbonic_acid_mmolc_m2(rain_mm=700.0, temp_c=15.0, params=p), 1)
    1.9
    """
    require_amount("rain_mm", rain_mm)
    ph = rain_ph(p_co2_atm=params.p_co2_air_atm, temp_c=temp_c, params=params)
    return float(1000.0 * 10.0**-ph * rain_mm)


def feed_acid_mmolc_m2(
    *,
    n_as_nh4_g_m2: float,
    n_as_urea_g_m2: float,
    n_as_no3_g_m2: float,
    params: LedgerParameters,
    in_pot: bool = False,
    land_use: str = "unknown",
) -> float:
    """Line of a nitrogen feed: ammonium acidifies, urea a third as much, nitrate gives base.

    Parameters
    ----------
    n_as_nh4_g_m2
        Nitrogen given as ammonium in the year, 0 or more [g/m2].
    n_as_urea_g_m2
        Nitrogen given as urea or in organic form, 0 or more [g/m2].
    n_as_no3_g_m2
        Nitrogen given as nitrate, 0 or more [g/m2].
    params
        Coefficients of the topic ``ledger`` [see the dataclass].
    in_pot
        True for pots, where all of the acid counts [truth].
    land_use
        One of the uses in ``core.background`` [text].

    Returns
    -------
    float
        Acid, negative for a feed of nitrate alone [mmolc/m2/year].

    Raises
    ------
    InputError
        For an unknown use of the land.
    OutOfRangeError
        For a negative amount.

    Notes
    -----
    r (2 A + U - (1 - l)(A + U + N)): what nitrification makes, less the base that plants give
    back for the nitrate they take up, whatever form it was given in. This nitrogen is not in
    the background line.

    References
    ----------
    auburn-anr174, woburn-barley-2022, pierre-1970, own-arithmetic

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = LedgerParameters(**parameter_values("ledger"))
    >>> round(feed_acid_mmolc_m2(n_as_nh4_g_m2=10.0, n_as_urea_g_m2=0.0, n_as_no3_g_m2=0.0,
    ...                          params=p))
    535
    """
    require_amount("n_as_nh4_g_m2", n_as_nh4_g_m2)
    require_amount("n_as_urea_g_m2", n_as_urea_g_m2)
    require_amount("n_as_no3_g_m2", n_as_no3_g_m2)
    realised, unreturned = nitrogen_shares(params, land_use=land_use, in_pot=in_pot)
    theoretical = (
        params.acid_per_nh4_mol_mol * n_as_nh4_g_m2
        + params.acid_per_urea_n_mol_mol * n_as_urea_g_m2
    )
    returned = (1.0 - unreturned) * (n_as_nh4_g_m2 + n_as_urea_g_m2 + n_as_no3_g_m2)
    return 1000.0 / NITROGEN_G_MOL * realised * (theoretical - returned)


def harvest_acid_mmolc_m2(
    dry_matter_g_m2: float, *, params: LedgerParameters, ash_alkalinity_mmolc_g: float | None = None
) -> float:
    """Line of what is carried off: clippings, hay or crop take base with them.

    Parameters
    ----------
    dry_matter_g_m2
        Dry matter removed in the year, 0 or more [g/m2].
    params
        Coefficients of the topic ``ledger`` [see the dataclass].
    ash_alkalinity_mmolc_g
        Ash alkalinity of what is removed, None for grass clippings [mmolc/g].

    Returns
    -------
    float
        Acid [mmolc/m2/year].

    Raises
    ------
    OutOfRangeError
        For a negative amount.

    Notes
    -----
    Removal x ash alkalinity. The background of lawns and crops was measured with harvests taken
    off, so this line goes with the ``unfed`` background only.

    References
    ----------
    slattery-1991

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> harvest_acid_mmolc_m2(300.0, params=LedgerParameters(**parameter_values("ledger")))
    180.0
    """
    require_amount("dry_matter_g_m2", dry_matter_g_m2)
    alkalinity = (
        params.harvest_alkalinity_mmolc_g
        if ash_alkalinity_mmolc_g is None
        else ash_alkalinity_mmolc_g
    )
    require_amount("ash_alkalinity_mmolc_g", alkalinity)
    return dry_matter_g_m2 * alkalinity


def sulfur_tail_mmolc_m2(
    *, sulfur_as_s_g_m2: float, oxidised_start_frac: float, oxidised_end_frac: float
) -> float:
    """Line of sulfur put on earlier that turns to acid within the year.

    Parameters
    ----------
    sulfur_as_s_g_m2
        Elemental sulfur put on, 0 or more [g/m2].
    oxidised_start_frac
        Share oxidised at the start of the year, 0 to 1 [1].
    oxidised_end_frac
        Share oxidised at its end, not below that at the start, to 1 [1].

    Returns
    -------
    float
        Acid [mmolc/m2/year].

    Raises
    ------
    OutOfRangeError
        For a negative amount or shares out of order.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> round(sulfur_tail_mmolc_m2(sulfur_as_s_g_m2=50.0, oxidised_start_frac=0.8,
    ...                            oxidised_end_frac=1.0))
    624
    """
    require_amount("sulfur_as_s_g_m2", sulfur_as_s_g_m2)
    if not 0.0 <= oxidised_start_frac <= oxidised_end_frac <= 1.0:
        raise OutOfRangeError(
            f"oxidised_start_frac {oxidised_start_frac:g} and oxidised_end_frac "
            f"{oxidised_end_frac:g} need 0 <= start <= end <= 1"
        )
    acid = acid_mmolc_m2_from_sulfur_as_s_g_m2(sulfur_as_s_g_m2)
    return acid * (oxidised_end_frac - oxidised_start_frac)


def yearly_lines(
    *,
    ph_water: float,
    drainage_mm: float,
    rain_mm: float,
    temp_c: float,
    irrigation_mm: float,
    alkalinity_mmolc_l: float,
    feed_acid_mmolc_m2: float,
    params: LedgerParameters,
    carbonate: CarbonateParameters,
    land_use: str = "unknown",
    air_mmolc_m2: float | None = None,
    sulfur_tail_mmolc_m2: float = 0.0,
    harvest_acid_mmolc_m2: float = 0.0,
) -> dict[str, float]:
    """All lines of the yearly ledger; their sum is the net acid.

    Parameters
    ----------
    ph_water
        pH in water of the soil, 2 to 11 [pH].
    drainage_mm
        Water draining in the year [mm].
    rain_mm
        Rain of the year [mm].
    temp_c
        Mean temperature of the rain, 0 to 40 [degC].
    irrigation_mm
        Watering of the year [mm].
    alkalinity_mmolc_l
        Alkalinity of that water [mmolc/L].
    feed_acid_mmolc_m2
        From :func:`feed_acid_mmolc_m2` [mmolc/m2/year].
    params
        Coefficients of the topic ``ledger`` [see the dataclass].
    carbonate
        Coefficients of the topic ``carbonate`` [see the dataclass].
    land_use
        One of the uses in ``core.background`` [text].
    air_mmolc_m2
        Acid from the air of the place and year; None for as much as the load of the use holds
        [mmolc/m2/year].
    sulfur_tail_mmolc_m2
        From :func:`sulfur_tail_mmolc_m2` [mmolc/m2/year].
    harvest_acid_mmolc_m2
        From :func:`harvest_acid_mmolc_m2` [mmolc/m2/year].

    Returns
    -------
    dict
        Name of the line to acid, in the order of a letter [mmolc/m2/year].

    Raises
    ------
    InputError
        As the functions of the lines.

    Notes
    -----
    Acid from the air stands in a line of its own, and that inside the load is taken off the
    other, so the sum does not count it twice.

    References
    ----------
    own-arithmetic, own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> lines = yearly_lines(ph_water=6.0, drainage_mm=200.0, rain_mm=700.0, temp_c=10.0,
    ...     irrigation_mm=200.0, alkalinity_mmolc_l=4.0, feed_acid_mmolc_m2=250.0,
    ...     params=LedgerParameters(**parameter_values("ledger")),
    ...     carbonate=CarbonateParameters(**parameter_values("carbonate")))
    >>> lines["irrigation water"]
    -800.0
    """
    background = background_acid_mmolc_m2(
        ph_water,
        drainage_mm=drainage_mm,
        params=params,
        land_use=land_use,
        air_mmolc_m2=air_mmolc_m2,
    )
    air = air_in_loads(params)[land_use] if air_mmolc_m2 is None else air_mmolc_m2
    return {
        "irrigation water": water_acid_mmolc_m2(
            alkalinity_mmolc_l=alkalinity_mmolc_l, water_mm=irrigation_mm
        ),
        "carbonic acid of rain": rain_carbonic_acid_mmolc_m2(
            rain_mm=rain_mm, temp_c=temp_c, params=carbonate
        ),
        "acid from the air": air,
        "leaching and uptake": background - air,
        "nitrogen feed": feed_acid_mmolc_m2,
        "sulfur of earlier years": sulfur_tail_mmolc_m2,
        "harvest": harvest_acid_mmolc_m2,
    }
