"""The laws of the column, put together from the parameter topics it draws on."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields

from loamshift.core.background import LedgerParameters
from loamshift.core.buffer_curve import BufferParameters
from loamshift.core.column_layout import ColumnLaws
from loamshift.core.lime import LimeParameters
from loamshift.core.nitrogen import NitrogenParameters
from loamshift.core.sulfur_rate import SulfurParameters

_NUMBERED = "half_time_factor_"


def column_laws(
    *,
    column: Mapping[str, float],
    buffer: BufferParameters,
    sulfur: SulfurParameters,
    nitrogen: NitrogenParameters,
    lime: LimeParameters,
    ledger: LedgerParameters,
    nitrate_uptake_half_time_d: float,
) -> ColumnLaws:
    """The coefficients that all members share.

    Parameters
    ----------
    column
        Values of the topic ``column``, by name [units of the table].
    buffer
        Coefficients of the topic ``buffer`` [see the dataclass].
    sulfur
        Coefficients of the topic ``sulfur`` [see the dataclass].
    nitrogen
        Coefficients of the topic ``nitrogen`` [see the dataclass].
    lime
        Coefficients of the topic ``lime`` [see the dataclass].
    ledger
        Coefficients of the topic ``ledger`` [see the dataclass].
    nitrate_uptake_half_time_d
        Half-time of plants taking up nitrate, above 0 [d].

    Returns
    -------
    ColumnLaws
        All of them in one place [units as named there].

    Notes
    -----
    A field is looked for in ``column`` first, then in the topics under its own name. The ceiling
    of aluminium is turned from mmolc/kg to mmolc/L by the water of the curve's solution.

    References
    ----------
    own-arithmetic

    Examples
    --------
    >>> from loamshift.tables.parameters import parameter_values as values
    >>> laws = column_laws(column=values("column"), buffer=BufferParameters(**values("buffer")),
    ...                    sulfur=SulfurParameters(**values("sulfur")),
    ...                    nitrogen=NitrogenParameters(**values("nitrogen")),
    ...                    lime=LimeParameters(**values("lime")),
    ...                    ledger=LedgerParameters(**values("ledger")),
    ...                    nitrate_uptake_half_time_d=45.0)
    >>> laws.al_highest_mmolc_l
    400.0
    """
    found = {
        "al_highest_mmolc_l": column["al_highest_mmolc_kg"] / buffer.solution_l_kg,
        "nitrate_uptake_half_time_d": nitrate_uptake_half_time_d,
    }
    topics = (sulfur, nitrogen, ledger, lime, buffer)
    for field in fields(ColumnLaws):
        name = field.name
        if name in found:
            continue
        if name in column:
            found[name] = column[name]
            continue
        own = name.replace("lime_class_factor_", _NUMBERED)
        found[name] = next(getattr(topic, own) for topic in topics if hasattr(topic, own))
    return ColumnLaws(**found)
