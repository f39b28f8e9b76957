"""How much of the acid of nitrogen counts where it is given: two shares by use of the land."""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from loamshift.core.background import LedgerParameters
from loamshift.errors import InputError

UNRETURNED_ROW: Final = {
    "unknown": "unreturned_bed_frac",
    "unfed": "unreturned_bed_frac",
    "garden": "unreturned_bed_frac",
    "bare": "unreturned_bare_frac",
    "lawn": "unreturned_lawn_frac",
    "low crop": "unreturned_crop_frac",
    "high crop": "unreturned_crop_frac",
}
"""Use of the land, or bare ground, to the row of its share; pots have their own."""
UNRETURNED_POT_ROW: Final = "unreturned_pot_frac"
BARE: Final = "bare"
"""Ground on which nothing grows, as a use of the land."""


class NitrogenShares(NamedTuple):
    """What counts of the acid of nitrogen [0-1]."""

    realised: float
    """Of acid and base, what shows in the topsoil."""
    unreturned: float
    """Of the nitrogen, what ends as nitrate for which plants give no base back."""


def unreturned_row(land_use: str, *, in_pot: bool) -> str:
    """Row of the ledger that says how much nitrate brings no base back.

    Parameters
    ----------
    land_use
        One of the uses in ``core.background``, or ``bare`` [text].
    in_pot
        True for pots [truth].

    Returns
    -------
    str
        Name of a row of the topic ``ledger`` [text].

    Raises
    ------
    InputError
        For an unknown use of the land.

    Notes
    -----
    One bed, one row; ground of unknown use takes the row of beds.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> unreturned_row("lawn", in_pot=False)
    'unreturned_lawn_frac'
    """
    if in_pot:
        return UNRETURNED_POT_ROW
    if land_use not in UNRETURNED_ROW:
        raise InputError(
            f"land_use {land_use!r} is not known; use one of {', '.join(UNRETURNED_ROW)}"
        )
    return UNRETURNED_ROW[land_use]


def realised_row(land_use: str, *, in_pot: bool) -> str:
    """Row of the ledger that says how much of the acid of nitrogen shows in the topsoil.

    Parameters
    ----------
    land_use
        One of the uses in ``core.background``, or ``bare`` [text].
    in_pot
        True for pots [truth].

    Returns
    -------
    str
        Name of a row of the topic ``ledger`` [text].

    Notes
    -----
    Plants in open ground bring base up from below; in pots and on bare ground nothing does.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> realised_row("lawn", in_pot=False)
    'realised_field_frac'
    """
    if in_pot:
        return "realised_pot_frac"
    return "realised_bare_frac" if land_use == BARE else "realised_field_frac"


def nitrogen_shares(params: LedgerParameters, *, land_use: str, in_pot: bool) -> NitrogenShares:
    """Both shares for one bed.

    Parameters
    ----------
    params
        Coefficients of the topic ``ledger`` [see the dataclass].
    land_use
        One of the uses in ``core.background``, or ``bare`` [text].
    in_pot
        True for pots [truth].

    Returns
    -------
    NitrogenShares
        The two [0-1].

    Raises
    ------
    InputError
        For an unknown use of the land.

    Notes
    -----
    A mole of nitrogen given as ammonium makes 2 mol of acid, as urea 1, as nitrate none. Taken
    up as nitrate it gives 1 back. So all forms lie 1 apart, and with the share l that brings
    nothing back they make 1 + l, l and l - 1; r of this shows in the topsoil.

    References
    ----------
    auburn-anr174, woburn-barley-2022, pierre-1970, greenhouse-ammonium-sources,
    solonetz-nitrogen, barton-colmer-2006, petrovic-1990, gudmundsson-2004, own-judgement

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values
    >>> p = LedgerParameters(**parameter_values("ledger"))
    >>> nitrogen_shares(p, land_use="low crop", in_pot=False)
    NitrogenShares(realised=0.5, unreturned=0.5)
    """
    realised: float = getattr(params, realised_row(land_use, in_pot=in_pot))
    share: float = getattr(params, unreturned_row(land_use, in_pot=in_pot))
    return NitrogenShares(realised, share)


def humus_rest(*, realised: ArrayLike, unreturned: ArrayLike) -> NDArray[np.float64]:
    """Acid of nitrogen that humus sets free under plants, beyond what counts of fertiliser.

    Parameters
    ----------
    realised
        Of the acid of fertiliser, what shows in the topsoil, any shape [0-1].
    unreturned
        Of the nitrogen, what ends as nitrate for which plants give no base back [0-1].

    Returns
    -------
    ndarray
        (1 - r) l [mol/mol].

    Notes
    -----
    Of fertiliser only r shows, for roots bring base up from below. Humus that rots hands its own
    base back in full as its carbon goes, so its acid must count in full too, l and not r l; else
    acid and base of one thing are weighed by two measures, and old turf sweetens a bed.

    References
    ----------
    own-judgement

    Examples
    --------
    >>> float(humus_rest(realised=0.5, unreturned=0.5))
    0.25
    """
    return (1.0 - np.asarray(realised, dtype=np.float64)) * np.asarray(unreturned, dtype=np.float64)
