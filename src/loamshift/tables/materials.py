"""Materials by key, and finding one by any name the trade gives it."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from functools import cache, lru_cache
from types import MappingProxyType

from loamshift.domain.material import Figure, LimeGrade, Material, MaterialGroup, SizeClass
from loamshift.domain.names import match_name
from loamshift.errors import TableError
from loamshift.tables.rows import evidence, number, number_or_none, read_rows, words

VECTOR_FIELDS = (
    "elemental_s_frac",
    "fast_acid_molc_kg",
    "n_as_nh4_frac",
    "n_as_urea_frac",
    "n_as_no3_frac",
    "n_organic_frac",
    "caco3_eq_frac",
    "ash_alkalinity_molc_kg",
    "organic_acid_molc_kg",
    "salt_molc_kg",
    "water_frac",
    "bulk_density_kg_m3",
)
"""Figures that are fields of ``Material``; other figures stay in ``Material.figures`` only."""


@cache
def load_materials() -> Mapping[str, Material]:
    """Every material by its key, in the order of the table.

    Returns
    -------
    Mapping
        Key to material; all shares are of product mass as sold [0-1].

    Raises
    ------
    TableError
        Where a row is broken, stands twice or belongs to no material.

    Examples
    --------
    >>> round(load_materials()["aluminium sulfate, 18-hydrate"].fast_acid_molc_kg, 2)
    9.0
    """
    figures = _figures()
    sizes = _sizes()
    materials: dict[str, Material] = {}
    for row in read_rows("materials"):
        key = row["key"]
        if key in materials:
            raise TableError(f"material {key} stands twice")
        own = figures.pop(key, {})
        density = own.get("bulk_density_kg_m3")
        materials[key] = Material(
            key=key,
            name_uk=row["name_uk"],
            name_us=row["name_us"],
            synonyms=words(row, "synonyms"),
            group=MaterialGroup(row["group"]),
            form=row["form"],
            sizes=tuple(sizes.pop(key, ())),
            lime_grade=LimeGrade.TOLD,
            intact_diameter_um=number_or_none(row, "intact_diameter_um"),
            cautions=words(row, "cautions"),
            bulk_density_low_kg_m3=density.low if density else None,
            bulk_density_high_kg_m3=density.high if density else None,
            figures=MappingProxyType(own),
            label=None,
            written="",
            **{name: own[name].value for name in VECTOR_FIELDS if name in own},
        )
    if figures or sizes:
        raise TableError(f"figures or sizes of unknown materials: {sorted({*figures, *sizes})}")
    return MappingProxyType(materials)


@lru_cache(maxsize=4096)
def find_material(text: str) -> Material:
    """The material a name means, by UK, US or trade words.

    Parameters
    ----------
    text
        A name, with the form after a comma where there is more than one form, such as
        ``elemental sulfur, powder``.

    Raises
    ------
    NameFault
        Where no material, or more than one, is meant; it lists the candidates.

    Examples
    --------
    >>> find_material("Flowers of Sulphur").key
    'elemental sulfur, powder'
    """
    return load_materials()[_key_of(text)]


@lru_cache(maxsize=1024)
def _key_of(text: str) -> str:
    """The key of the material meant; a form or a letter asks for the same few again and again."""
    return match_name(text, _spellings(), kind="material")


@cache
def _spellings() -> Mapping[str, tuple[str, ...]]:
    return {
        key: (*material.synonyms, material.name_uk, material.name_us)
        for key, material in load_materials().items()
    }


def _figures() -> dict[str, dict[str, Figure]]:
    found: dict[str, dict[str, Figure]] = defaultdict(dict)
    for row in read_rows("material_figures"):
        if row["figure"] in found[row["key"]]:
            raise TableError(f"figure {row['figure']} of {row['key']} stands twice")
        found[row["key"]][row["figure"]] = Figure(
            value=number(row, "value"),
            low=number_or_none(row, "low"),
            high=number_or_none(row, "high"),
            unit=row["unit"],
            source_key=row["source_key"],
            evidence=evidence(row),
            note=row["note"],
        )
    return dict(found)


def _sizes() -> dict[str, list[SizeClass]]:
    found: dict[str, list[SizeClass]] = defaultdict(list)
    for row in read_rows("material_sizes"):
        found[row["key"]].append(
            SizeClass(number(row, "low_um"), number(row, "high_um"), number(row, "mass_frac"))
        )
    return dict(found)
