"""Places: twelve monthly temperatures and rain totals, and where they come from."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Monthly climate of a place: air temperature [degC] and rain [mm] from January on.

    ``latitude`` decides the hemisphere and day length [degrees north].
    """

    name: str
    country: str
    latitude: float
    longitude: float | None
    elevation_m: float | None
    air_temp_c: tuple[float, ...]
    rain_mm: tuple[float, ...]
    source_key: str
    basis: str
    """Shipped place, nearest point with its distance, or the user's own numbers."""
