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
    kind: str = "range"
    """range, or target: a figure to aim at, with no ends meant; it stands in no median."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlantLimit:
    """One printed limit of one plant; ``None`` where a side is open [pH in water].

    ``medium`` says what the limit holds for: ``soil``, ``container`` (potting mixes without
    soil) or ``solution`` (nutrient solution, neither of the two).
    """

    kind: str
    """harmful: injury named; tolerated: said to bear it; occurrence: found on such soils."""
    ph_low: float | None
    ph_high: float | None
    source_key: str
    grade: str
    """A institution or journal, B printed table or column, C trade or unknown."""
    evidence: str
    basis: str
    """What the pH was read in; salt readings are converted to pH in water."""
    note: str = ""
    medium: str = "soil"
    decides: tuple[str, ...] = ()
    """Sides (low, high) on which this limit is the one that counts."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Plant:
    """A plant: the median of the ranges printed for it, and how far sources agree.

    ``ph_low``..``ph_high`` medians over sources; ``tolerated_low``/``high`` wide limits of
    survival where a database prints them [pH in water]. ``harmful_low``/``high`` bound the pH
    of a soil beyond which injury is printed, ``container_harmful_low``/``high`` the same for
    potting mixes without soil; ``occurrence_low``/``high`` the soils it is found on, which is
    no optimum [pH in water].
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
    """Independent families of sources, targets inside the range among them."""
    all_seen: bool
    midpoint_spread: float
    ranges_agree: bool
    calcifuge: bool
    note: str
    sources: tuple[PlantSource, ...]
    harmful_low: float | None = None
    harmful_high: float | None = None
    container_harmful_low: float | None = None
    container_harmful_high: float | None = None
    occurrence_low: float | None = None
    occurrence_high: float | None = None
    limits: tuple[PlantLimit, ...] = ()
    is_group: bool = False
    """True for plants named together, as in “lawn”; never offered in place of another."""
    tolerates_acid: bool = False
    """Grows on acid soil without needing it: its range alone calls for no acidifying plan."""
    offered: str = ""
    """Where it may be named in place of another: empty for anywhere, ``warm summer``, ``no frost``
    or ``never`` (common practice, no source)."""
    doubtful: bool = False
    """Its only printed range looks wrong: no plan starts from it, whatever the reading."""

    @property
    def is_weak(self) -> bool:
        """True where the range rests on one family, on grade C alone, or on memory.

        Two ranges with a gap between them are no better than one. Such a range never by itself
        starts an acidifying or liming plan.
        """
        if self.n_sources < 2 or not self.all_seen:
            return True
        ranges = [s for s in self.sources if s.kind == "range"]
        if len(ranges) == 2 and max(s.ph_low for s in ranges) > min(s.ph_high for s in ranges):
            return True
        return all(s.grade == "C" or s.evidence == "memory" for s in self.sources)
