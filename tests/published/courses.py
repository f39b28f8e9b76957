"""Four field experiments as forecasts: what a user would have known then, and how it went.

Nothing is fitted. The model gets texture, organic carbon, the first pH, depth, climate, the use
of the land, and what was put on and when; the readings that follow are only compared.
"""

from __future__ import annotations

import csv
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cache
from itertools import pairwise
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from loamshift.core.column import run_column
from loamshift.core.column_events import column_events
from loamshift.core.column_layout import (
    ColumnEvent,
    ColumnEvents,
    ColumnSoil,
    ColumnWeather,
    EventKind,
)
from loamshift.core.ensemble import coverage, crps_ensemble, quantile_bands
from loamshift.domain.case import Bed, BedKind, Before, Case, SoilEntry
from loamshift.domain.humus import HumusHistory
from loamshift.domain.ph import PhMethod, PhReading
from loamshift.domain.place import Place
from loamshift.domain.soil import Soil
from loamshift.services.belief.column_layers import layer_edges_cm, soil_layers
from loamshift.services.belief.column_parts import PutOn, depth_shares, events_of
from loamshift.services.belief.column_priors import draw_soil_members
from loamshift.services.belief.column_weather import column_weather
from loamshift.services.context.air import air_acid
from loamshift.services.context.soil import believe_soil
from loamshift.services.forecast.outlook import shared_laws
from loamshift.tables.lime_grades import grade_of_place, graded
from loamshift.tables.lime_share import (
    is_of_unknown_grade,
)
from loamshift.tables.materials import find_material
from loamshift.tables.places import nearest_place
from loamshift.tables.soils import load_textures

FloatArray = NDArray[np.float64]

CASES = Path(__file__).parent / "cases"
MEMBERS = 400
STRIDE_DAYS = 7
"""The model is read in the week before a reading."""
SEED = 1
G_M2_PER_T_HA = 100.0
G_M2_PER_KG_HA = 0.1
LONGEST_RESTART_YEARS = 50
HARPENDEN_RAIN_MM = 700.0
"""Yearly rain at the farm, as stated with the data from memory; the grid has 625 mm at Kew."""
SPRING = (4, 15)
"""Month and day of a yearly dressing of nitrogen."""
AUTUMN = (10, 15)
"""Month and day of ploughing, liming and sampling where only the year is known."""
HIGHFIELD_CLAY_PCT = 23.0
"""Not in the file; taken inside the class it states, silty clay loam, for the Batcombe series."""
PARK_GRASS_CARBON_PCT = 3.0
"""Organic carbon of the old meadow, assumed: it is not in the file of pH values."""


UNKNOWN_LIME = "garden lime, unknown grade"
BRITISH_LIME = {"ground chalk": "ground limestone, british standard"}
"""Chalk ground in Britain is taken at the fineness of British law, not of the American grade."""


@dataclass(frozen=True)
class Dressing:
    """One material put on: date, its name in the table, rate [g/m2], depth worked in [cm]."""

    on: date
    material: str
    rate_g_m2: float
    depth_cm: float = 0.0


@dataclass(frozen=True)
class Reading:
    """One later reading: date, pH, depth [cm]."""

    on: date
    ph: float
    depth_cm: float


@dataclass(frozen=True)
class Course:
    """One forecast: what was known at its start, and the readings that followed."""

    name: str
    entry: SoilEntry
    place: Place
    land_use: str
    start: date
    dressings: tuple[Dressing, ...]
    readings: tuple[Reading, ...]
    ploughed_cm: tuple[tuple[int, float], ...] = ()
    """Year from which it is ploughed every autumn, and how deep [cm]."""
    humus: HumusHistory | None = None
    """What the ground was before, where that is told; None where it is not."""
    first_ph: float = 0.0
    """What the yardstick holds the pH at: the first reading of the plot."""


@dataclass(frozen=True)
class Scored:
    """Every reading of a study against its forecast; arrays of one value for each."""

    names: tuple[str, ...]
    days: NDArray[np.int64]
    observed: FloatArray
    bands: FloatArray
    """Quantiles 5, 25, 50, 75, 95 %, shape (5, n)."""
    crps: FloatArray
    crps_stays: FloatArray
    """Of "stays as first measured"."""
    crps_stays_restart: FloatArray
    """Of "stays as it was where this forecast began"."""
    balance_error: float

    @property
    def held(self) -> float:
        """Share in the 90 % band."""
        return coverage(self.observed, low=self.bands[0], high=self.bands[4])

    @property
    def held_half(self) -> float:
        """Share in the 50 % band."""
        return coverage(self.observed, low=self.bands[1], high=self.bands[3])

    @property
    def width(self) -> float:
        """Mean width of the 90 % band [pH]."""
        return float((self.bands[4] - self.bands[0]).mean())

    @property
    def bias(self) -> float:
        """Mean of median less observed [pH]."""
        return float((self.bands[2] - self.observed).mean())

    @property
    def rmse(self) -> float:
        """Root mean square of median less observed [pH]."""
        return float(np.sqrt(((self.bands[2] - self.observed) ** 2).mean()))

    def only(self, keep: NDArray[np.bool_]) -> Scored:
        """The readings marked."""
        return Scored(
            names=tuple(n for n, k in zip(self.names, keep, strict=True) if k),
            days=self.days[keep],
            observed=self.observed[keep],
            bands=self.bands[:, keep],
            crps=self.crps[keep],
            crps_stays=self.crps_stays[keep],
            crps_stays_restart=self.crps_stays_restart[keep],
            balance_error=self.balance_error,
        )


def rows(name: str) -> Iterator[dict[str, str]]:
    """Rows of one case file."""
    with (CASES / name).open(encoding="utf-8", newline="") as handle:
        yield from csv.DictReader(handle)


def soil_entry(
    ph: float, *, texture: str, clay_pct: float, carbon_pct: float, taken: date
) -> SoilEntry:
    """What a laboratory report of the day would have said."""
    return SoilEntry(
        ph=PhReading(ph=ph, method=PhMethod.WATER_1_2_5, taken=taken),
        texture=load_textures()[texture],
        clay_pct=clay_pct,
        organic_carbon_pct=carbon_pct,
        carbonate_pct=0.0,
    )


def harpenden() -> Place:
    """The nearest shipped climate, its rain scaled to that of the farm."""
    place = nearest_place(latitude=51.81, longitude=-0.36)
    scale = HARPENDEN_RAIN_MM / sum(place.rain_mm)
    return replace(place, rain_mm=tuple(scale * month for month in place.rain_mm))


def nitrogen(on: date, form: str, n_kg_ha: float) -> Dressing:
    """A dressing of nitrogen; compounds are taken as ammonium nitrate."""
    name = "ammonium nitrate" if "compound" in form else form
    material = find_material(name)
    return Dressing(on, material.key, n_kg_ha * G_M2_PER_KG_HA / material.n_frac)


def lime(on: date, form: str, caco3_t_ha: float, depth_cm: float) -> Dressing:
    """A dressing of lime, ploughed in."""
    material = find_material(BRITISH_LIME.get(form, form))
    rate = caco3_t_ha * G_M2_PER_T_HA / material.caco3_eq_frac
    return Dressing(on, material.key, rate, depth_cm)


@cache
def sawyers() -> tuple[Course, ...]:
    """Liming experiment on arable land: four treatments, 32 years."""
    start = date(1962, 2, 14)
    place = harpenden()
    readings = list(rows("time_courses_sawyers.csv"))
    first = float(next(r["ph"] for r in readings if r["plot"] == "all"))
    entry = soil_entry(first, texture="silty clay loam", clay_pct=21.0, carbon_pct=1.4, taken=start)
    inputs = list(rows("time_courses_sawyers_inputs.csv"))
    found = []
    for plot in ("0", "L", "M", "H"):
        dressings = []
        for row in inputs:
            if row["plot"] not in ("all", plot):
                continue
            on, amount = date.fromisoformat(row["date"]), float(row["amount"])
            if row["unit"] == "t CaCO3/ha":
                depth = 18.0 if on.year < 1971 else 23.0
                dressings.append(lime(on, row["material"], amount, depth))
            else:
                dressings.append(nitrogen(on, row["material"], amount))
        found.append(
            Course(
                name=plot,
                entry=entry,
                place=place,
                land_use="high crop",
                start=start,
                dressings=tuple(dressings),
                readings=tuple(
                    Reading(date.fromisoformat(r["date"]), float(r["ph"]), float(r["depth_cm"]))
                    for r in readings
                    if r["plot"] == plot
                ),
                ploughed_cm=((1962, 18.0), (1971, 23.0)),
                first_ph=first,
            )
        )
    return tuple(found)


@cache
def woburn(*, grade_told: bool = True) -> tuple[Course, ...]:
    """Continuous barley: nothing, ammonium sulfate or sodium nitrate, some of it limed.

    The lime is told as ground limestone, or as what the record makes of it: of unknown grade.
    """
    start = date(1876, *AUTUMN)
    place = nearest_place(latitude=52.01, longitude=-0.60)
    readings = list(rows("time_courses_woburn.csv"))
    base = next(r for r in readings if r["plot"] == "all")
    first = float(base["ph"])
    entry = soil_entry(
        first,
        texture="sandy loam",
        clay_pct=11.7,
        carbon_pct=float(base["organic_carbon_pct"]),
        taken=start,
    )
    inputs = list(rows("time_courses_woburn_inputs.csv"))
    found = []
    for plot in dict.fromkeys(r["plot"] for r in readings if r["plot"] != "all"):
        dressings = []
        for row in inputs:
            if row["plot"] != plot:
                continue
            years = range(int(row["from_year"]), int(row["to_year"]) + 1, int(row["every_years"]))
            for year in years:
                if row["unit"] == "t CaCO3/ha":
                    on = date(year, *AUTUMN)
                    form = row["material"] if grade_told else UNKNOWN_LIME
                    dressings.append(lime(on, form, float(row["amount"]), 23.0))
                else:
                    on = date(year, *SPRING)
                    dressings.append(nitrogen(on, row["material"], float(row["amount"])))
        found.append(
            Course(
                name=plot,
                entry=entry,
                place=place,
                land_use="low crop",
                start=start,
                dressings=tuple(sorted(dressings, key=lambda d: d.on)),
                readings=tuple(
                    Reading(date(int(r["year"]), *AUTUMN), float(r["ph"]), 23.0)
                    for r in readings
                    if r["plot"] == plot
                ),
                ploughed_cm=((1876, 23.0),),
                first_ph=first,
            )
        )
    return tuple(found)


@cache
def park_grass(*, restarted: bool = True) -> tuple[Course, ...]:
    """Unlimed meadow since 1856, the forecast begun anew at each reading."""
    place = harpenden()
    readings = list(rows("time_courses_park_grass.csv"))
    inputs = {r["plot"]: r for r in rows("time_courses_park_grass_inputs.csv")}
    found = []
    for plot in dict.fromkeys(r["plot"] for r in readings):
        course = [(int(r["year"]), float(r["ph"])) for r in readings if r["plot"] == plot]
        first = course[0][1]
        pairs = list(pairwise(course))
        if not restarted:
            pairs = [(course[0], later) for later in course[1:]]
        for (year, ph), (later, ph_later) in pairs:
            if restarted and later - year > LONGEST_RESTART_YEARS:
                continue
            start = date(year, *AUTUMN)
            fed = inputs.get(plot)
            dressings = (
                tuple(
                    nitrogen(date(y, *SPRING), fed["material"], float(fed["n_kg_ha"]))
                    for y in range(max(year + 1, int(fed["from_year"])), later + 1)
                )
                if fed
                else ()
            )
            found.append(
                Course(
                    name=plot,
                    entry=soil_entry(
                        ph,
                        texture="silty clay loam",
                        clay_pct=22.1,
                        carbon_pct=PARK_GRASS_CARBON_PCT,
                        taken=start,
                    ),
                    place=place,
                    land_use="lawn" if fed else "unfed",
                    start=start,
                    dressings=dressings,
                    readings=(Reading(date(later, *AUTUMN), ph_later, 23.0),),
                    first_ph=first,
                )
            )
    return tuple(found)


@cache
def highfield(land_use: str, *, told_turf: bool = False) -> tuple[Course, ...]:
    """Bare fallow out of old grass: four plots that bore nothing and were given nothing, 55 years.

    Only the first pH and the first carbon of a plot are told, and if wanted that old turf was dug
    in on that day and the ground kept bare; later carbon and density are not.
    """
    turf = HumusHistory(before=Before.TURF, years=0.0, kept_bare=True)
    place = harpenden()
    readings = list(rows("time_courses_highfield.csv"))
    found = []
    for plot in dict.fromkeys(r["plot"] for r in readings):
        first, *later = (r for r in readings if r["plot"] == plot)
        start = date.fromisoformat(first["date"])
        ph = float(first["ph"])
        found.append(
            Course(
                name=plot,
                entry=soil_entry(
                    ph,
                    texture="silty clay loam",
                    clay_pct=HIGHFIELD_CLAY_PCT,
                    carbon_pct=float(first["organic_carbon_pct"]),
                    taken=start,
                ),
                place=place,
                land_use=land_use,
                start=start,
                dressings=(),
                readings=tuple(
                    Reading(date.fromisoformat(r["date"]), float(r["ph"]), 23.0) for r in later
                ),
                ploughed_cm=((1960, 23.0),),
                humus=turf if told_turf else None,
                first_ph=ph,
            )
        )
    return tuple(found)


def score(courses: Sequence[Course], *, members: int = MEMBERS, seed: int = SEED) -> Scored:
    """Every reading of the courses against its forecast; the same seed for all of a site.

    Plots that were treated alike share one run.
    """
    alike: dict[tuple[object, ...], list[tuple[Course, Reading]]] = {}
    for course in courses:
        for reading in course.readings:
            key = (
                course.entry,
                course.place,
                course.land_use,
                course.start,
                course.dressings,
                course.ploughed_cm,
                course.humus,
                reading.depth_cm,
            )
            alike.setdefault(key, []).append((course, reading))
    found = []
    worst = 0.0
    for group in alike.values():
        depth = group[0][1].depth_cm
        dates = tuple(reading.on for _, reading in group)
        values, error = _forecast(group[0][0], dates, depth_cm=depth, members=members, seed=seed)
        worst = max(worst, error)
        truth = np.array([reading.ph for _, reading in group])
        found += [
            (course, reading, *scores)
            for (course, reading), *scores in zip(
                group, quantile_bands(values).T, crps_ensemble(values, truth), strict=True
            )
        ]
    order = {id(course): index for index, course in enumerate(courses)}
    found.sort(key=lambda one: (order[id(one[0])], one[1].on))
    observed = np.array([reading.ph for _, reading, _, _ in found])
    return Scored(
        names=tuple(course.name for course, _, _, _ in found),
        days=np.array([(r.on - c.start).days for c, r, _, _ in found], dtype=np.int64),
        observed=observed,
        bands=np.array([bands for _, _, bands, _ in found]).T,
        crps=np.array([crps for _, _, _, crps in found]),
        crps_stays=np.abs(observed - np.array([c.first_ph for c, _, _, _ in found])),
        crps_stays_restart=np.abs(observed - np.array([_start_ph(c) for c, _, _, _ in found])),
        balance_error=worst,
    )


def _start_ph(course: Course) -> float:
    assert course.entry.ph is not None
    return course.entry.ph.ph


def believed(course: Course) -> Soil:
    """The soil as the program believes it from what was known."""
    case = Case(
        name=course.name,
        today=course.start,
        place=course.place,
        bed=Bed(kind=BedKind.FIELD, depth_cm=23.0),
        soil=course.entry,
    )
    soil = believe_soil(case, depth_cm=23.0)
    assert soil is not None
    return soil


def _forecast(
    course: Course, dates: tuple[date, ...], *, depth_cm: float, members: int, seed: int
) -> tuple[FloatArray, float]:
    """What a test at the dates would read, (members, dates), and the worst balance error."""
    soil = believed(course)
    made = ground(course, soil, depth_cm=depth_cm, last=max(dates))
    drawn = draw_soil_members(
        soil,
        members=members,
        rng=np.random.default_rng(seed),
        land_use=course.land_use,
        humus=course.humus,
        air_spread=air_acid(course.place, year=course.start.year).spread,
    )
    result = run_column(
        made.soil,
        drawn.parameters,
        made.weather,
        made.events,
        laws=shared_laws(),
        sample_depth_cm=depth_cm,
        stride_days=STRIDE_DAYS,
    )
    at = [(on - course.start).days // STRIDE_DAYS for on in dates]
    error = soil.ph.ph_water_sd * drawn.reading_z
    return result.ph[:, at] + error[:, None], float(result.balance_error.max())


@dataclass(frozen=True)
class Ground:
    """What the column runs on for a course, but for its members."""

    soil: ColumnSoil
    weather: ColumnWeather
    events: ColumnEvents


def ground(course: Course, soil: Soil, *, depth_cm: float, last: date) -> Ground:
    """The layers, weather and events of a course until its last reading at a depth."""
    length = (last - course.start).days
    depths = {d.depth_cm for d in course.dressings} | {depth for _, depth in course.ploughed_cm}
    edges = layer_edges_cm(treated_cm=23.0, others_cm=sorted(depths | {depth_cm}))
    events: list[ColumnEvent] = []
    for dressing in course.dressings:
        day = (dressing.on - course.start).days
        if 0 <= day < length:
            material = find_material(dressing.material)
            if is_of_unknown_grade(material):
                material = graded(material, grade_of_place(course.place))
            part = PutOn(
                material=material,
                rate_g_m2=dressing.rate_g_m2,
                day=day,
                depth_cm=dressing.depth_cm,
            )
            events += events_of(part, edges_cm=edges)
    events += _ploughing(course, edges, length)
    available = max((soil.field_capacity_frac - soil.wilting_frac) * 300.0, 5.0)
    return Ground(
        soil=soil_layers(soil, edges_cm=edges),
        weather=column_weather(
            soil,
            place=course.place,
            edges_cm=edges,
            start=course.start,
            days=length,
            available_water_mm=available,
            bare=course.humus is not None and course.humus.kept_bare,
            land_use=course.land_use,
        ),
        events=column_events(events, n_layers=edges.size - 1),
    )


def _ploughing(course: Course, edges: FloatArray, length: int) -> list[ColumnEvent]:
    found = []
    years = [year for year, _ in course.ploughed_cm]
    for year in range(course.start.year, course.start.year + length // 365 + 2):
        depth = [d for first, d in course.ploughed_cm if first <= year]
        day = (date(year, *AUTUMN) - course.start).days
        if years and depth and 0 <= day < length:
            share = depth_shares(depth[-1], edges_cm=edges)
            found.append(ColumnEvent(kind=EventKind.TILLAGE, day=day, layer_share=share))
    return found
