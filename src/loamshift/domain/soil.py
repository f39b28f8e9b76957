"""What is known of a soil, and what is believed where nothing is known."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from loamshift.domain.evidence import Evidence
from loamshift.domain.ph import PhBelief


class Medium(StrEnum):
    """What the roots stand in."""

    MINERAL = "mineral"
    PEAT_MIX = "peat mix"
    BARK_MIX = "bark mix"
    COIR_MIX = "coir mix"
    PEAT_FREE_MIX = "peat-free mix"


class PhosphorusLevel(StrEnum):
    """How a laboratory rates the phosphorus it found, by its own method and scale."""

    LOW = "low"
    MEDIUM = "medium"
    HIGH = "high"
    VERY_HIGH = "very high"


class Fizz(StrEnum):
    """What a drop of acid on the soil showed."""

    NONE = "none"
    SLIGHT = "slight"
    MODERATE = "moderate"
    STRONG = "strong"
    EXTREME = "extreme"


class FizzAcid(StrEnum):
    """The acid the fizz was tried with."""

    HCL = "HCl"
    VINEGAR = "vinegar"


@dataclass(frozen=True, slots=True)
class TextureClass:
    """One texture class with the values a soil of that class usually has.

    ``clay_pct`` and ``sand_pct`` are class centres [%]; ``bulk_density_g_cm3`` for topsoil in
    garden condition [g/cm3]; ``field_capacity_frac`` and ``wilting_frac`` [m3/m3].
    """

    key: str
    name: str
    synonyms: tuple[str, ...]
    sand_pct: float
    clay_pct: float
    bulk_density_g_cm3: float
    field_capacity_frac: float
    wilting_frac: float
    organic_carbon_pct: float
    """Assumed where nobody measured it [%]."""
    source_key: str
    evidence: Evidence
    note: str


@dataclass(frozen=True, slots=True)
class MediumClass:
    """A growing medium that is not mineral soil.

    ``organic_carbon_pct`` [%], ``bulk_density_g_cm3`` dry [g/cm3], ``log10_k`` shift of the
    organic term and its sd [log10].
    """

    medium: Medium
    organic_carbon_pct: float
    bulk_density_g_cm3: float
    field_capacity_frac: float
    wilting_frac: float
    log10_k_mean: float
    log10_k_sd: float
    source_key: str
    evidence: Evidence
    note: str


@dataclass(frozen=True, slots=True)
class CarbonateBelief:
    """Free carbonate of a soil as a mixture: some weight at zero, the rest spread out.

    ``zero_weight`` [0-1]; the rest log-uniform from ``low_pct`` to ``high_pct`` [% CaCO3]. Equal
    bounds mean a measured value, lognormal about it with ``log_sd`` [ln]; 0 there is an exact one.
    """

    zero_weight: float
    low_pct: float
    high_pct: float
    basis: str
    measured: bool
    log_sd: float = 0.0

    @property
    def is_possible(self) -> bool:
        """True where some free carbonate may be there."""
        return self.zero_weight < 1.0 and self.high_pct > 0.0


class UnusedReason(StrEnum):
    """Why a fact that could tell how strongly a soil resists was left out."""

    NO_EQUATION = "no-equation"
    """The method is known by name; no source for its equation was found."""
    NOT_ACID = "not-acid"
    """The soil lies at or above the pH that the method limes to."""
    NO_ACIDITY = "no-acidity"
    """The reading lies where the equation of this buffer finds no acidity any more."""
    ABOVE_SENSE = "above-sense"
    """The reading lies at or above the pH of the buffer itself."""
    BELOW_SENSE = "below-sense"
    """The reading lies lower than this buffer can fall."""
    LIKE_SOIL_PH = "like-soil-ph"
    """A buffer pH no higher than the soil's own pH: probably the soil pH itself."""
    NO_READING = "no-reading"
    """The buffer is named, its pH is not given."""
    SAME_REPORT = "same-report"
    """Worked out from another figure of the report that is used."""
    NOTHING_FOUND = "nothing-found"
    """A figure of nothing: no lime asked for, no aluminium found."""
    ORGANIC_MEDIUM = "organic-medium"
    """Made for mineral soil, not for a potting mix."""
    NOTHING_MORE = "nothing-more"
    """No data show that it tells more than texture and organic matter do."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnusedFact:
    """A fact of the case that did not move the scale of the curve.

    ``path`` in the case file; ``value`` as given and ``limit`` of the reason, in its unit;
    ``method`` is the name of the method where there is one.
    """

    path: str
    reason: UnusedReason
    value: float | None = None
    limit: float | None = None
    method: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ScaleMeasurement:
    """A fact of the case that moved the scale: what it says of log10 k by itself [log10].

    ``path`` in the case file; ``method`` its name where there is one; ``several`` is true where
    it may mean more than one thing and ``log10_k_mean`` is the likeliest; ``doubted`` is true
    where it lies far from what texture and humus say.
    """

    path: str
    log10_k_mean: float
    log10_k_sd: float
    method: str = ""
    several: bool = False
    doubted: bool = False


@dataclass(frozen=True, slots=True)
class KBelief:
    """The one scale of the buffer curve: log10 k is normal with this mean and sd [log10].

    ``prior_mean`` and ``prior_sd`` are what texture and humus say alone [log10]; None where
    nobody said.
    """

    log10_k_mean: float
    log10_k_sd: float
    basis: str
    """What was known: texture by feel, laboratory clay and organic matter, titration ..."""
    contributions: tuple[str, ...] = ()
    """One phrase per measurement that moved the scale."""
    measured: tuple[ScaleMeasurement, ...] = ()
    unused: tuple[UnusedFact, ...] = ()
    prior_mean: float | None = None
    prior_sd: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Soil:
    """A soil as the model sees it: everything filled in, with where it came from."""

    ph: PhBelief
    clay_pct: float
    organic_carbon_pct: float
    bulk_density_g_cm3: float
    field_capacity_frac: float
    wilting_frac: float
    medium: Medium
    carbonate: CarbonateBelief
    k: KBelief
    texture_name: str
    assumed: tuple[str, ...]
    """Case-file paths of what had to be assumed, such as ``soil.organic_matter_pct``."""
