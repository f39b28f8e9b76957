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
    """A growing medium that is not mineral soil: peat or bark mix.

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


@dataclass(frozen=True, slots=True)
class KBelief:
    """The one scale of the buffer curve: log10 k is normal with this mean and sd [log10]."""

    log10_k_mean: float
    log10_k_sd: float
    basis: str
    """What was known: texture by feel, laboratory clay and organic matter, titration ..."""
    contributions: tuple[str, ...] = ()
    """One phrase per measurement that moved the scale."""


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
