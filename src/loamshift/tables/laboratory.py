"""What laboratories work with: buffer-pH equations, phosphorus indices, sieves."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from loamshift.domain.rules import BufferPhMethod
from loamshift.errors import TableError
from loamshift.tables.rows import evidence, number, number_or_none, read_rows, words

NO_EQUATION = "none"
"""The ``form`` of a method that is known by name but gives no lime equation to use."""


@cache
def load_buffer_ph_methods() -> Mapping[str, BufferPhMethod]:
    """Every buffer-pH method by key.

    Raises
    ------
    TableError
        Where a method stands twice.

    Examples
    --------
    >>> load_buffer_ph_methods()["mehlich"].coefficients
    (6.6, 4.0)
    """
    methods: dict[str, BufferPhMethod] = {}
    for row in read_rows("buffer_ph_methods"):
        if row["key"] in methods:
            raise TableError(f"buffer-pH method {row['key']} stands twice")
        methods[row["key"]] = BufferPhMethod(
            key=row["key"],
            synonyms=words(row, "synonyms"),
            form=row["form"],
            coefficients=tuple(float(text) for text in words(row, "coefficients")),
            target_ph=number_or_none(row, "target_ph"),
            depth_cm=number(row, "depth_cm"),
            result_unit=row["result_unit"],
            slice_kg_m2=number_or_none(row, "slice_kg_m2"),
            field_allowance=number(row, "field_allowance"),
            sense_low_ph=number(row, "sense_low_ph"),
            sense_high_ph=number(row, "sense_high_ph"),
            family=row["family"],
            log10_sd=number(row, "log10_sd"),
            source_key=row["source_key"],
            evidence=evidence(row),
            note=row["note"],
        )
    return MappingProxyType(methods)


def buffer_ph_method_for_target(key: str, *, target_ph: float) -> BufferPhMethod:
    """The row of a method whose own target lies nearest to the one wished.

    Parameters
    ----------
    target_ph
        pH in water wished [pH].

    Raises
    ------
    TableError
        Where no method has this key.

    Notes
    -----
    Keys that differ only after ``, to ph`` are one method with several targets. An equation
    that takes any target is its own nearest.
    """
    methods = load_buffer_ph_methods()
    if key not in methods:
        raise TableError(f"no buffer-pH method has the key {key}; keys: {', '.join(methods)}")
    family = key.partition(", to ph")[0]
    alike = [m for m in methods.values() if m.key.partition(", to ph")[0] == family]
    return min(
        alike,
        key=lambda m: 0.0 if m.target_ph is None else abs(m.target_ph - target_ph),
    )


def buffer_families() -> tuple[BufferPhMethod, ...]:
    """One method for each kind of buffer: what an unnamed reading may be."""
    return tuple(method for method in load_buffer_ph_methods().values() if method.family)


@cache
def load_phosphorus_indices() -> Mapping[int, float]:
    """The least phosphorus of each index, by what bicarbonate takes out of a litre of soil.

    Returns
    -------
    Mapping
        Index to the least of it [mg/L of soil], in whole figures.

    Examples
    --------
    >>> load_phosphorus_indices()[2]
    16.0
    """
    return MappingProxyType(
        {int(row["index"]): number(row, "least_mg_l") for row in read_rows("phosphorus_indices")}
    )


@cache
def load_sieve_openings_um() -> Mapping[int, float]:
    """Opening of each sieve by its mesh number.

    Returns
    -------
    Mapping
        Mesh to opening [um].

    Examples
    --------
    >>> load_sieve_openings_um()[60]
    250.0
    """
    return MappingProxyType(
        {int(row["mesh"]): number(row, "opening_um") for row in read_rows("sieves")}
    )
