"""Studies known from their abstract only: each forecast once, hit or miss, with the reason.

Something that the model needs is missing in every one of them and had to be assumed, so they
bound nothing: they are listed, never counted.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date

import numpy as np

from loamshift.core.column import run_column
from loamshift.core.column_events import column_events
from loamshift.core.column_layout import ColumnEvent, ColumnWeather
from loamshift.core.ensemble import quantile_bands
from loamshift.domain.material import Material, SizeClass
from loamshift.domain.place import Place
from loamshift.domain.soil import Soil
from loamshift.services.belief.column_layers import layer_edges_cm, soil_layers
from loamshift.services.belief.column_parts import PutOn, events_of
from loamshift.services.belief.column_priors import draw_soil_members
from loamshift.services.belief.column_weather import column_weather
from loamshift.services.forecast.outlook import shared_laws
from loamshift.tables.materials import find_material
from loamshift.tables.places import nearest_place
from published.courses import Course, FloatArray, believed, rows, soil_entry

MEMBERS = 200
SEED = 1
STRIDE_DAYS = 5
POSITIONS = {
    "North Otago": (-45.1, 170.9),
    "Minsmere": (52.25, 1.6),
    "Ontario": (43.6, -80.0),
    "Alberta": (53.0, -113.5),
    "Shandong": (37.2, 120.8),
}
CLAY_PCT = {"sand": 5.0, "sandy loam": 12.0, "loam": 20.0, "silt loam": 18.0, "clay loam": 32.0}
START = date(2001, 4, 15)
NOT_LISTED = {
    "S06": "first pH missing",
    "S10": "granules with a fertiliser inside are not in the model",
    "S11": "share of sulfate recovered, no clock",
    "S12": "rate missing",
    "S15": "first pH and rate of nitrogen missing",
    "S18": "rate missing",
    "S20": "one exponent of the model was fitted to it",
    "S21": "first pH and day missing",
    "S22": "first pH and course of the lime missing; its rise below surface lime is a check of "
    "its own, all else assumed",
    "S23": "rates of sulfur, inside the prior",
    "S24": "rates of sulfur, inside the prior",
    "S25": "sulfate recovered, no pH",
}
"""Why the others cannot be forecast."""


@dataclass(frozen=True)
class Listed:
    """One study's figure against its forecast, in the unit of ``quantity``."""

    study: str
    what: str
    quantity: str
    observed: tuple[float, float]
    band: tuple[float, float, float]
    """Quantiles 5, 50 and 95 %."""
    assumed: str
    reason: str
    source: str

    @property
    def hit(self) -> bool:
        """True where the 90 % band meets the figure as stated."""
        return self.band[0] <= self.observed[1] and self.observed[0] <= self.band[2]

    def line(self) -> str:
        """The line of a list."""
        low, middle, high = self.band
        verdict = "hit" if self.hit else "miss"
        why = f"; {self.reason}" if self.reason and not self.hit else ""
        return (
            f"{self.study} {self.what}: {self.quantity} {self.observed[0]:g} to "
            f"{self.observed[1]:g} seen, {middle:.2f} ({low:.2f} to {high:.2f}) forecast, "
            f"{verdict}{why} [assumed: {self.assumed}]"
        )


def listing() -> Iterator[Listed]:
    """Every study of the list with its forecast."""
    for row in rows("time_courses_abstracts.csv"):
        yield Listed(
            study=row["study"],
            what=row["what"],
            quantity=row["quantity"],
            observed=(float(row["observed_low"]), float(row["observed_high"])),
            band=_band(row),
            assumed=row["assumed"],
            reason=row["reason"],
            source=row["source"],
        )


def _band(row: dict[str, str]) -> tuple[float, float, float]:
    days = int(row["day"])
    place = _place(row["climate"])
    depth = float(row["depth_cm"])
    start_ph = float(row["start_ph"])
    entry = soil_entry(
        start_ph,
        texture=row["texture"],
        clay_pct=CLAY_PCT[row["texture"]],
        carbon_pct=float(row["organic_carbon_pct"]),
        taken=START,
    )
    soil = believed(
        Course(
            name=row["study"],
            entry=replace(entry, carbonate_pct=float(row["carbonate_pct"])),
            place=place or nearest_place(latitude=52.0, longitude=0.0),
            land_use=row["land_use"],
            start=START,
            dressings=(),
            readings=(),
        )
    )
    sampled = depth or (5.0 if row["quantity"] == "ph_change_year" else 15.0)
    edges = layer_edges_cm(treated_cm=sampled)
    events: list[ColumnEvent] = []
    if row["material"]:
        for day in range(0, days, 365) if row["every_year"] == "yes" else (0,):
            part = PutOn(
                material=_material(row), rate_g_m2=float(row["g_m2"]), day=day, depth_cm=depth
            )
            events += events_of(part, edges_cm=edges)
    drawn = draw_soil_members(
        soil, members=MEMBERS, rng=np.random.default_rng(SEED), land_use=row["land_use"]
    )
    result = run_column(
        soil_layers(soil, edges_cm=edges),
        drawn.parameters,
        _weather(row["climate"], place, edges, days, soil),
        column_events(events, n_layers=edges.size - 1),
        laws=shared_laws(),
        sample_depth_cm=sampled,
        stride_days=STRIDE_DAYS,
    )
    at = days // STRIDE_DAYS
    read = result.ph[:, at] + soil.ph.ph_water_sd * drawn.reading_z
    values = {
        "ph": read,
        "ph_change": read - start_ph,
        "ph_change_year": (read - start_ph) / (days / 365.0),
        "oxidised_pct": 100.0 * result.oxidised_frac[:, at],
    }[row["quantity"]]
    low, middle, high = quantile_bands(values, probabilities=(0.05, 0.5, 0.95))
    return float(low), float(middle), float(high)


def _place(climate: str) -> Place | None:
    if climate.endswith(" C"):
        return None
    latitude, longitude = POSITIONS[climate]
    return nearest_place(latitude=latitude, longitude=longitude)


def _weather(
    climate: str, place: Place | None, edges: FloatArray, days: int, soil: Soil
) -> ColumnWeather:
    """The field's own weather, or an incubator: warm, at field capacity, nothing drains."""
    if place is not None:
        return column_weather(
            soil,
            place=place,
            edges_cm=edges,
            start=START,
            days=days + STRIDE_DAYS,
            available_water_mm=60.0,
        )
    layers = edges.size - 1
    length = days + STRIDE_DAYS
    return ColumnWeather(
        soil_temp_c=np.full((length, layers), float(climate.removesuffix(" C"))),
        wetness=np.ones((length, layers)),
        drainage_mm=np.zeros(length),
        irrigation_mm=np.zeros(length),
        alkalinity_mmolc_l=0.0,
        leaching_factor=0.0,
    )


def _material(row: dict[str, str]) -> Material:
    if row["material"] != "elemental sulfur":
        return find_material(row["material"])
    powder = find_material("elemental sulfur, powder")
    size = SizeClass(float(row["low_um"]), float(row["high_um"]), 1.0)
    return replace(powder, elemental_s_frac=1.0, sizes=(size,), intact_diameter_um=None)


def main() -> None:
    """Print the list."""
    lines = list(listing())
    for one in lines:
        print(one.line())  # noqa: T201
    hits = sum(one.hit for one in lines)
    print(f"{hits} of {len(lines)} hit")  # noqa: T201
    for study, reason in NOT_LISTED.items():
        print(f"{study}: not forecast, {reason}")  # noqa: T201


if __name__ == "__main__":
    main()
