"""Amounts for a table of soils: a row in, a row out, and a bad row says what is wrong with it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Final, TypeVar

import numpy as np

from loamshift.core.need import FloatArray
from loamshift.domain.message import Given, message
from loamshift.domain.worded_error import WordedError
from loamshift.python.reader import worded_errors
from loamshift.python.soil_columns import key_columns, read_rows
from loamshift.services.dose_rows import dose_rows
from loamshift.tables.materials import find_material

Frame = TypeVar("Frame")

ACIDIFIER: Final = "elemental sulfur, powder"
LIMING_MATERIAL: Final = "ground limestone, calcitic"
_ENDS: Final = ("lo90", "mid", "hi90")
_DIRECTIONS: Final = {1.0: "acidify", -1.0: "lime", 0.0: "none"}
_PURE: Final = {1.0: "S", -1.0: "CaCO3", 0.0: None}


def dose_table(
    frame: Frame,
    *,
    columns: Mapping[str, str] | None = None,
    acidifier: str = ACIDIFIER,
    liming_material: str = LIMING_MATERIAL,
) -> Frame:
    """What a step of pH takes on each soil of a table.

    Works in arrays: ten thousand soils take about a second. It answers what the step takes, not
    whether it should be taken: no verdict, no limits, no plan. Ask ``advise`` for those.

    Parameters
    ----------
    frame
        A pandas or Polars data frame, or a dictionary of columns, a row for each soil. Columns
        are keys of the case file: ``ph`` and ``target_ph`` are needed; ``ph_method``,
        ``texture`` or ``clay_pct`` (``sand_pct``, ``silt_pct``), ``organic_matter_pct`` or
        ``organic_carbon_pct``, ``carbonate_pct`` or ``fizz`` with ``fizz_acid``,
        ``bulk_density_g_cm3``, ``depth`` and ``target_method`` are used where they are there.
        A gap is what nobody measured. Others are kept as they are [unit of the key].
    columns
        Key by your own name of a column, such as ``{"pH (H2O)": "ph"}`` [text].
    acidifier
        Product for soils that go down [text].
    liming_material
        Product for soils that go up [text].

    Returns
    -------
    DataFrame
        The same rows in the same order and kind, with ``direction`` (acidify, lime or none),
        ``pure`` (S or CaCO3), ``pure_lo90_g_m2``, ``pure_mid_g_m2``, ``pure_hi90_g_m2``,
        ``product``, ``product_lo90_g_m2`` to ``product_hi90_g_m2`` [g/m2],
        ``acid_mid_mmolc_kg`` (negative for base) [mmolc/kg], and ``fault``, empty where there
        is none [text].

    Raises
    ------
    InputError
        Where a needed column is missing, or a product brings nothing in its direction. A bad
        value in a row is no error: it stands in the row's ``fault``.

    Notes
    -----
    Buffer curve plus free carbonate, with the error of the reading, as for one bed; the same to
    nine digits. Nine soils in ten like the one of the row need between ``lo90`` and ``hi90``.

    References
    ----------
    ``docs/why/buffer-curve.md`` and ``docs/why/dose.md``.

    Examples
    --------
    >>> table = dose_table({"ph": [7.2, 15], "target_ph": [6.5, 6.5], "texture": ["loam", "loam"]})
    >>> table["direction"], round(table["pure_mid_g_m2"][0])
    (['acidify', None], 105)
    >>> print(table["fault"][1])
    soil.ph: “15” must be from 2 to 11. For example: ph = 7.2
    """
    with worded_errors():
        if isinstance(frame, Mapping):
            plain = {str(name): list(values) for name, values in frame.items()}
            return {**plain, **_made(plain, columns or {}, acidifier, liming_material)}  # type: ignore[return-value]
        made: Frame = _framed(frame, columns or {}, acidifier, liming_material)
        return made


def _framed(frame: Any, columns: Mapping[str, str], acidifier: str, liming_material: str) -> Any:
    import narwhals.stable.v2 as nw

    try:
        table = nw.from_native(frame, eager_only=True)
    except TypeError as error:
        raise WordedError(message("python-not-a-table")) from error
    plain = {name: table[name].to_list() for name in key_columns(table.columns, columns).values()}
    made = _made(plain, columns, acidifier, liming_material, among=table.columns)
    texts = ("direction", "pure", "product", "fault")
    added = [
        nw.new_series(name, values, nw.String, backend=table.implementation)
        if name in texts
        else _floats(name, values, table.implementation)
        for name, values in made.items()
    ]
    index = nw.maybe_get_index(table)
    if index is not None:
        added = [nw.maybe_set_index(one, index=index) for one in added]
    return table.with_columns(*added).to_native()


def _floats(name: str, values: Sequence[float | None], library: Any) -> Any:
    """A column of numbers, built from one array because a list is gone through value by value."""
    import narwhals.stable.v2 as nw

    array = np.array(values, dtype=np.float64)
    series = nw.Series.from_numpy(name, array, nw.Float64, backend=library)
    return series.fill_nan(None) if library.is_polars() else series


def _made(
    plain: Mapping[str, Sequence[Any]],
    columns: Mapping[str, str],
    acidifier: str,
    liming_material: str,
    *,
    among: Sequence[str] | None = None,
) -> dict[str, list[Any]]:
    """The columns that are added to a table."""
    names = list(plain if among is None else among)
    keys = key_columns(names, columns)
    products = {1.0: find_material(acidifier), -1.0: find_material(liming_material)}
    read = read_rows({key: plain[name] for key, name in keys.items()})
    count = len(plain[keys["ph"]])
    done = dose_rows(read.rows, acidifier=products[1.0], liming_material=products[-1.0])
    signs: list[float | None] = [None] * count
    for place, sign in zip(read.places, done.direction.tolist(), strict=True):
        signs[place] = sign
    made: dict[str, list[Any]] = {
        "direction": [None if sign is None else _DIRECTIONS[sign] for sign in signs],
        "pure": [None if sign is None else _PURE[sign] for sign in signs],
    }
    for end, name in enumerate(_ENDS):
        made[f"pure_{name}_g_m2"] = _spread(done.pure_g_m2[:, end], read.places, count)
    made["product"] = [products[sign].key if sign else None for sign in signs]
    for end, name in enumerate(_ENDS):
        made[f"product_{name}_g_m2"] = _spread(done.product_g_m2[:, end], read.places, count)
    made["acid_mid_mmolc_kg"] = _spread(done.acid_mmolc_kg[:, 1], read.places, count)
    made["fault"] = [read.faults.get(place) for place in range(count)]
    for name in made:
        if name in names:
            raise WordedError(message("python-column-taken", column=Given(name)))
    return made


def _spread(values: FloatArray, places: Sequence[int], count: int) -> list[float | None]:
    found: list[float | None] = [None] * count
    for place, value in zip(places, np.asarray(values).tolist(), strict=True):
        found[place] = value
    return found
