"""The sentence an adviser says of a material, by the key of its message."""

from __future__ import annotations

import re
from typing import Final

from loamshift.domain.material import Material
from loamshift.domain.message import Message, message

_NO_KEY: Final = re.compile(r"[^a-z0-9]+")


def material_slug(key: str) -> str:
    """A key of a material as part of the key of a message.

    Examples
    --------
    >>> material_slug("vinegar, 5 %")
    'vinegar-5'
    """
    return _NO_KEY.sub("-", key.casefold()).strip("-")


def material_comment(material: Material) -> Message:
    """What an adviser would say of a material in a sentence or two.

    Parameters
    ----------
    material
        Shipped, or known by the label of its bag.

    Examples
    --------
    >>> from loamshift.tables.materials import load_materials
    >>> material_comment(load_materials()["gypsum"]).key
    'material-gypsum-comment'
    """
    if material.label is not None:
        return message("material-by-label")
    return message(f"material-{material_slug(material.key)}-comment")
