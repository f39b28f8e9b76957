"""The material that an answer names, whether it is shipped or known by a bag's label."""

from __future__ import annotations

from collections.abc import Mapping

from loamshift.domain.material import Material
from loamshift.tables.materials import find_material, load_materials


def material_named(key: str, *, own: Mapping[str, Material]) -> Material:
    """The material behind a key of an answer.

    Parameters
    ----------
    own
        Products of the case known by their label, by key.

    Raises
    ------
    NameFault
        Where no material, or more than one, is meant.

    Examples
    --------
    >>> material_named("gypsum", own={}).key
    'gypsum'
    """
    return own.get(key) or load_materials().get(key) or find_material(key)
