"""Plants and the pH ranges printed for them, disagreement kept."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class PlantSource:
    """One source's range for one plant [pH in water assumed]."""

    ph_low: float
    ph_high: float
    source_key: str
    grade: str
    """A institution or database, B printed table or society, C web list or memory."""
    evidence: str
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Plant:
    """A plant: the median of the ranges printed for it, and how far sources agree.

    ``ph_low``..``ph_high`` medians over sources; ``tolerated_low``/``high`` wide limits of
    survival where a database prints them [pH in water].
    """

    key: str
    name: str
    latin_name: str
    synonyms: tuple[str, ...]
    group: str
    ph_low: float
    ph_high: float
    lowest: float
    highest: float
    tolerated_low: float | None
    tolerated_high: float | None
    n_sources: int
    """Independent families of sources."""
    all_seen: bool
    midpoint_spread: float
    ranges_agree: bool
    calcifuge: bool
    note: str
    sources: tuple[PlantSource, ...]

    @property
    def is_weak(self) -> bool:
        """True where the range rests on one family, on grade C alone, or on memory.

        Such a range never by itself starts an acidifying or liming plan.
        """
        if self.n_sources < 2 or not self.all_seen:
            return True
        return all(s.grade == "C" or s.evidence == "memory" for s in self.sources)
