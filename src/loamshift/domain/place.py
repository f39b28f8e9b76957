"""Places: twelve months of temperature, rain and wet days, and where they come from."""

from __future__ import annotations

from dataclasses import dataclass

from loamshift.domain.message import Worded


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """Monthly climate of a place: air temperature [degC] and rain [mm] from January on.

    ``latitude`` decides the hemisphere and day length [degrees north]. ``wet_days`` are days with
    more than 0.1 mm of rain in each month; None where nobody counted them [d/month].
    """

    name: str
    country: str
    latitude: float
    longitude: float | None
    elevation_m: float | None
    air_temp_c: tuple[float, ...]
    rain_mm: tuple[float, ...]
    source_key: str
    basis: Worded
    """Shipped place, nearest point with its distance, or the user's own numbers."""
    wet_days: tuple[float, ...] | None = None
