"""One pH reading as every published conversion would have it in another method."""

from __future__ import annotations

from dataclasses import dataclass

from loamshift.domain.evidence import Evidence
from loamshift.domain.message import Worded
from loamshift.domain.ph import PhMethod


@dataclass(frozen=True, slots=True, kw_only=True)
class PhView:
    """What one conversion makes of a reading: value and sd [pH].

    ``in_range`` is false where the reading lies outside what the conversion was made from;
    ``turned_round`` where it was printed the other way.
    """

    ph: float
    ph_sd: float
    default: bool
    in_range: bool
    turned_round: bool
    route: str
    source_keys: tuple[str, ...]
    evidence: Evidence
    note: Worded


@dataclass(frozen=True, slots=True, kw_only=True)
class PhConversionView:
    """A reading by one method, seen as another: the default first, the rest beside it."""

    ph: float
    from_method: PhMethod
    to_method: PhMethod
    views: tuple[PhView, ...]
