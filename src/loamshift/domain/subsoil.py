"""What lies below the sample, what it means for roots, and what reaches it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum


class RootsBelow(StrEnum):
    """What a layer means for the roots of the plants wanted."""

    SUITS = "suits"
    """Its pH lies in their range."""
    HIGH = "high"
    TOO_HIGH = "too-high"
    """Above the pH that harms them."""
    LOW = "low"
    TOO_LOW = "too-low"
    """Below the pH that harms them."""
    ALUMINIUM = "aluminium"
    """Below their range, and so acid that aluminium in a subsoil is toxic to roots."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SubsoilLayer:
    """A layer as it was found: ``top_cm`` to ``bottom_cm`` [cm], pH in water, free lime [% CaCO3].

    ``roots`` is None where no plant and no pH is wanted; ``limit_ph`` is the pH that it goes by,
    where one is passed that does harm [pH in water].
    """

    top_cm: float
    bottom_cm: float
    ph_water: float
    carbonate_pct: float
    roots: RootsBelow | None
    limit_ph: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class SubsoilDepth:
    """What a depth does by the column: the median of the simulated beds [pH in water].

    ``ph_today``, then ``ph_untreated`` and ``ph_planned`` on the last day; ``shows_from`` the first
    yearly day on which the plan has changed it by what careful tests could tell from none, None
    where it does not.
    """

    top_cm: float
    bottom_cm: float
    ph_today: float
    ph_untreated: float
    ph_planned: float
    shows_from: date | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Subsoil:
    """The layers below the sample, and every depth until the day ``on`` where it was forecast.

    ``treated`` is true where a plan puts something on.
    """

    layers: tuple[SubsoilLayer, ...]
    depths: tuple[SubsoilDepth, ...] = ()
    on: date | None = None
    treated: bool = False

    @property
    def reached_cm(self) -> float:
        """How deep the plan shows, 0 where nowhere [cm]."""
        return max(
            (one.bottom_cm for one in self.depths if one.shows_from is not None), default=0.0
        )

    def is_reached(self, layer: SubsoilLayer) -> bool:
        """True where the plan shows in some of a layer."""
        return self.reached_cm > layer.top_cm
