"""The case as read: what the user said, in internal units, nothing filled in.

The case file's own words and units are the business of ``loamshift.case``; a service gets
this object. ``None`` means the user did not say.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from enum import StrEnum

from loamshift.domain.material import Material
from loamshift.domain.message import Given, Message, Worded
from loamshift.domain.ph import PhMethod, PhReading
from loamshift.domain.place import Place
from loamshift.domain.plant import Plant
from loamshift.domain.soil import Fizz, FizzAcid, Medium, PhosphorusLevel, TextureClass
from loamshift.domain.worth import FurtherTest


class BedKind(StrEnum):
    """What kind of planting place it is."""

    GROUND = "ground"
    RAISED = "raised"
    CONTAINER = "container"
    LAWN = "lawn"
    FIELD = "field"


class Drainage(StrEnum):
    """How water leaves the bed."""

    FREE = "free"
    SLOW = "slow"
    WATERLOGGED = "waterlogged"


class Site(StrEnum):
    """What the ground was used for before."""

    ORDINARY = "ordinary"
    OLD_URBAN = "old-urban"
    OLD_ORCHARD = "old-orchard"


class Surrounding(StrEnum):
    """What lies beside, in or below a bed and gives lime back to it."""

    LIMESTONE_GRAVEL = "limestone-gravel"
    CONCRETE = "concrete"
    MORTAR = "mortar"
    LINED_TRENCH = "lined-trench"
    OVER_CHALK = "over-chalk"


class Sign(StrEnum):
    """What somebody sees of plants that are not well."""

    YELLOW_YOUNG = "yellow-young-leaves"
    YELLOW_OLD = "yellow-old-leaves"
    SCORCHED_EDGES = "scorched-edges"
    TOO_DEEP = "planted-too-deep"
    WET_FEET = "wet-feet"


class Before(StrEnum):
    """What the ground was before it was dug, which says how much of its humus still rots."""

    TURF = "turf"
    """Grass of five years or more, dug or ploughed in."""
    MANURED = "manured"
    """Ground that had dung or compost year after year."""
    ARABLE = "arable"
    GARDEN = "garden"


class Units(StrEnum):
    """The units answers are shown in."""

    METRIC = "metric"
    US = "us"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bed:
    """The bed: area [m2] of one bed, treated depth [cm], how many alike.

    ``before_years`` since the ground was dug in, or since its manuring ended [years].
    """

    kind: BedKind = BedKind.GROUND
    area_m2: float | None = None
    depth_cm: float | None = None
    count: int = 1
    plants: int | None = None
    treated_diameter_cm: float | None = None
    planted: bool | None = None
    growing: tuple[Plant, ...] = ()
    drainage: Drainage | None = None
    site: Site | None = None
    surroundings: tuple[Surrounding, ...] = ()
    signs: tuple[Sign, ...] = ()
    before: Before | None = None
    before_years: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerEntry:
    """What was found in a layer below the sample, from ``top_cm`` to ``bottom_cm`` [cm]."""

    top_cm: float
    bottom_cm: float
    ph: float
    method: PhMethod = PhMethod.UNKNOWN
    carbonate_pct: float | None = None
    fizz: Fizz | None = None
    fizz_acid: FizzAcid | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SoilEntry:
    """What was said about the soil, in internal units."""

    ph: PhReading | None = None
    other_ph: tuple[PhReading, ...] = ()
    texture: TextureClass | None = None
    sand_pct: float | None = None
    silt_pct: float | None = None
    clay_pct: float | None = None
    organic_matter_pct: float | None = None
    organic_carbon_pct: float | None = None
    medium: Medium = Medium.MINERAL
    carbonate_pct: float | None = None
    fizz: Fizz | None = None
    fizz_acid: FizzAcid | None = None
    buffer_ph: float | None = None
    buffer_ph_method: str | None = None
    lab_lime_requirement_g_m2: float | None = None
    cec_cmolc_kg: float | None = None
    base_saturation_pct: float | None = None
    exchangeable_al_cmolc_kg: float | None = None
    mg_saturation_pct: float | None = None
    mg_mg_kg: float | None = None
    p_level: PhosphorusLevel | None = None
    sodium_pct: float | None = None
    ec_ds_m: float | None = None
    ec_method: str | None = None
    bulk_density_g_cm3: float | None = None
    clay_type: str | None = None
    sampled: date | None = None
    sample_depth_cm: float | None = None
    layers: tuple[LayerEntry, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Aim:
    """What is wished: plants, or a target pH by a named method, and by when."""

    plants: tuple[Plant, ...] = ()
    target_ph: float | None = None
    target_method: PhMethod | None = None
    by: date | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Water:
    """Irrigation: alkalinity [mg/L as CaCO3], weekly depth [mm], months [1-12]."""

    alkalinity_mg_l_as_caco3: float | None = None
    weekly_mm: float | None = None
    months: tuple[int, ...] = (5, 6, 7, 8, 9)
    hardness_mg_l_as_caco3: float | None = None
    """Kept only to be answered: hardness is never taken for alkalinity."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Feed:
    """The yearly feed: nitrogen [g/m2/yr] in a named form, or a material at a rate."""

    n_g_m2_year: float | None = None
    form: str | None = None
    """ammonium | urea | nitrate | ammonium nitrate"""
    material: Material | None = None
    rate_g_m2: float | None = None
    times: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class PotsWanted:
    """Pots to be compared with the ground.

    ``compare`` None where nobody asked for it or against it; ``volume_l`` of one pot [L];
    ``mix_price_per_l`` of the potting mix [currency/L] and ``price`` of one pot [currency].
    """

    compare: bool | None = None
    volume_l: float | None = None
    medium: Medium | None = None
    mix_price_per_l: float | None = None
    price: float | None = None

    @property
    def is_asked(self) -> bool:
        """True where somebody asked for the comparison, if only by saying which pots."""
        return bool(self.compare) or (self.compare is None and self != PotsWanted())

    @property
    def is_priced(self) -> bool:
        """True where anything of them has a price."""
        return self.mix_price_per_l is not None or self.price is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class OnHand:
    """A product the user has: purity [%], pack [g], price of the pack."""

    material: Material
    purity_pct: float | None = None
    pack_g: float | None = None
    price: float | None = None
    currency: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PriceOfTest:
    """What a test costs the user, with postage [currency of the case]."""

    test: FurtherTest
    price: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Applied:
    """Something already put on: rate [g/m2], how deep it was worked in [cm]."""

    on: date
    material: Material
    rate_g_m2: float
    as_given: str
    incorporated_cm: float = 0.0
    in_household_measures: bool = False
    """True for cups, spoons, handfuls and buckets, which nobody weighed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TitrationPoint:
    """One jar of a titration series: acid added [mmolc/kg, base negative] and pH in water."""

    acid_mmolc_kg: float
    ph: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ClaimEntry:
    """A material somebody proposes, with rate [g/m2]: what would it do?"""

    material: Material
    rate_g_m2: float
    as_given: str
    in_household_measures: bool = False
    """True for cups, spoons, handfuls and buckets, which nobody weighed."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One case, read and checked. ``today`` is the date the advice is for."""

    name: str
    today: date
    units: Units = Units.METRIC
    place: Place | None = None
    soil_temps: tuple[tuple[date, float, float], ...] = ()
    """Own soil thermometer: date, temperature [degC], depth [cm]."""
    bed: Bed = field(default_factory=Bed)
    soil: SoilEntry = field(default_factory=SoilEntry)
    aim: Aim = field(default_factory=Aim)
    water: Water = field(default_factory=Water)
    feed: Feed | None = None
    pot: PotsWanted = field(default_factory=PotsWanted)
    on_hand: tuple[OnHand, ...] = ()
    currency: str | None = None
    """Of the prices of tests, and of products that name none."""
    test_prices: tuple[PriceOfTest, ...] = ()
    applied: tuple[Applied, ...] = ()
    readings: tuple[PhReading, ...] = ()
    titration: tuple[TitrationPoint, ...] = ()
    claims: tuple[ClaimEntry, ...] = ()
    limes: tuple[Material, ...] = ()
    """Shipped limes in the fineness that the place tells; empty until a context is built."""
    without_unit: tuple[str, ...] = ()
    """Paths given as a bare figure where the unit decides whether the figure is usual."""
    notes: tuple[Worded, ...] = ()
    """Things the reader of the file noticed and an adviser should say (for example a unit slip
    that was not refused)."""

    def notes_on(self, path: str) -> tuple[Worded, ...]:
        """What was noticed about a key or what is below it, without naming the key."""
        found: dict[str, Worded] = {}
        for note in self.notes:
            if isinstance(note, Message):
                at, text = note.values.get("path"), note.values.get("note")
                if isinstance(at, Given) and at.text.startswith(path) and isinstance(text, Message):
                    found.setdefault(str(text), text)
            elif isinstance(note, str) and note.startswith(path) and ": " in note:
                found.setdefault(note, note.partition(": ")[2])
        return tuple(found.values())

    def in_own_currency(self) -> Case:
        """The case with its currency beside each price of a product that names none."""
        products = tuple(
            replace(one, currency=self.currency)
            if one.price is not None and one.currency is None
            else one
            for one in self.on_hand
        )
        return replace(self, on_hand=products)

    @property
    def own_materials(self) -> Mapping[str, Material]:
        """Products that this case knows by their label or place, by key."""
        named: list[Material | None] = [
            *(item.material for item in self.on_hand),
            *(entry.material for entry in self.applied),
            *(entry.material for entry in self.claims),
            None if self.feed is None else self.feed.material,
        ]
        own = {one.key: one for one in named if one is not None and one.label is not None}
        return {**{one.key: one for one in self.limes}, **own}

    findings: tuple[str, ...] = ()
