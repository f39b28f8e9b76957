"""Where sodium decides, and what else than sodium makes a soil read as high."""

from __future__ import annotations

from typing import Final

from loamshift.domain.bed_context import BedContext
from loamshift.domain.message import Listed
from loamshift.services.context.amount_words import products
from loamshift.services.context.overdose import recent_materials
from loamshift.tables.model import verdict_values

_CAUSTIC: Final = "caustic-lime"
"""The caution of ash, hydrated and burnt lime: fresh, they take a soil past what lime holds."""


def is_sodic(context: BedContext) -> bool:
    """True where sodium decides: no lime by the tables for ordinary soil, and no plain water."""
    return (context.case.soil.sodium_pct or 0.0) > verdict_values()["sodic_pct"]


def caustic_put_on(context: BedContext) -> Listed | None:
    """Ash and caustic lime put on lately, in words; None where there was none."""
    found = tuple(one.key for one in recent_materials(context) if _CAUSTIC in one.cautions)
    return products(found) if found else None
