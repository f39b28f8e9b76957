"""Materials as vectors: what a kilogram of product brings to the soil."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Final

from loamshift.domain.evidence import Evidence
from loamshift.domain.label import Label

BREAK_UP_TOP: Final = "break_up_top_per_year"
"""Figure of prills: share of what is whole that breaks up, on a moist surface [1/year]."""
BREAK_UP_DUG_IN: Final = "break_up_dug_in_per_year"
"""The same dug in [1/year]."""


class MaterialGroup(StrEnum):
    """What a material is for, in the trade's words."""

    SULFUR = "sulfur"
    ACID_SALT = "acid salt"
    ACID = "acid"
    NITROGEN = "nitrogen fertiliser"
    NEUTRAL_SALT = "neutral salt"
    LIME = "lime"
    ORGANIC = "organic matter"
    ASH = "ash"
    IRON = "iron feed"


class LimeGrade(StrEnum):
    """How fine a lime is taken to be ground."""

    TOLD = "told"
    """By its own name or label."""
    BRITISH = "british"
    IRISH = "irish"
    PULVERISED = "pulverised"
    """The American grade."""
    MIXED = "mixed"
    """Half American, half British: no place tells which."""


@dataclass(frozen=True, slots=True)
class SizeClass:
    """Mass share [0-1] of product with diameter ``low_um`` to ``high_um`` [um]."""

    low_um: float
    high_um: float
    mass_frac: float


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure of a material: value with range, unit, and what stands behind it."""

    value: float
    low: float | None
    high: float | None
    unit: str
    source_key: str
    evidence: Evidence
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Material:
    """One material and form. All shares are of product mass as sold.

    ``elemental_s_frac``, ``n_as_nh4_frac``, ``n_as_urea_frac``, ``n_as_no3_frac``,
    ``caco3_eq_frac`` (neutralising value of lime, ash, compost), ``water_frac`` [0-1];
    ``fast_acid_molc_kg`` acid of aluminium, iron and mineral acids once they have reacted;
    ``ash_alkalinity_molc_kg`` base that decay sets free; ``organic_acid_molc_kg`` acid that
    microbes destroy again; ``salt_molc_kg`` soluble salt once dissolved [molc/kg].
    """

    key: str
    """Unique, lower case, such as ``elemental sulfur, powder``."""
    name_uk: str
    name_us: str
    synonyms: tuple[str, ...]
    """Every other spelling that finds this material."""
    group: MaterialGroup
    form: str
    elemental_s_frac: float = 0.0
    fast_acid_molc_kg: float = 0.0
    n_as_nh4_frac: float = 0.0
    n_as_urea_frac: float = 0.0
    n_as_no3_frac: float = 0.0
    n_organic_frac: float = 0.0
    caco3_eq_frac: float = 0.0
    ash_alkalinity_molc_kg: float = 0.0
    organic_acid_molc_kg: float = 0.0
    salt_molc_kg: float = 0.0
    water_frac: float = 0.0
    bulk_density_kg_m3: float | None = None
    bulk_density_low_kg_m3: float | None = None
    bulk_density_high_kg_m3: float | None = None
    sizes: tuple[SizeClass, ...] = ()
    """Particle sizes of sulfur or lime; empty where size does not matter."""
    intact_diameter_um: float | None = None
    """Diameter of a prill or pastille before it breaks up [um]; None for powders."""
    lime_grade: LimeGrade = LimeGrade.TOLD
    """Whose fineness ``sizes`` are, where the place of the bed had to tell it."""
    cautions: tuple[str, ...] = ()
    figures: Mapping[str, Figure] = field(default_factory=dict)
    """Every figure above by field name, with range and source; also extra figures (pH, C:N)."""
    label: Label | None = None
    """The analysis of the bag, where the material is known by that; None for a shipped one."""
    written: str = ""
    """What the case file calls a labelled product; empty for a shipped material."""

    @property
    def n_frac(self) -> float:
        """Total nitrogen [0-1]."""
        return self.n_as_nh4_frac + self.n_as_urea_frac + self.n_as_no3_frac + self.n_organic_frac
