"""Many materials side by side for one soil, each at the amount that people usually put on."""

from __future__ import annotations

from dataclasses import dataclass

from loamshift.domain.answer import Answer, ClaimResult
from loamshift.domain.case import Case
from loamshift.domain.evidence import Evidence
from loamshift.domain.material import Material
from loamshift.domain.message import Message


@dataclass(frozen=True, slots=True, kw_only=True)
class UsualAmount:
    """What people commonly put on a square metre of one material.

    One of ``depth_cm`` [cm], ``volume_l_m2`` [L/m2] and ``mass_g_m2`` [g/m2] is given; the other
    two are None. ``way`` says how it goes on, as a choice of wording: mulch, handful and so on.
    ``for_need`` is acid or lime where it is only tried on ground that needs that, else any.
    """

    key: str
    for_need: str
    way: str
    depth_cm: float | None
    volume_l_m2: float | None
    mass_g_m2: float | None
    source_key: str
    evidence: Evidence

    def rate_g_m2(self, material: Material) -> float:
        """The rate of a material that this makes, by its bulk density [g/m2]."""
        if self.mass_g_m2 is not None:
            return self.mass_g_m2
        density = material.bulk_density_kg_m3
        if density is None:
            raise ValueError(f"{material.key} has no bulk density")
        litres = self.volume_l_m2 if self.depth_cm is None else 10.0 * self.depth_cm
        return density * (litres or 0.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetLine:
    """One material of a sheet: what was found, its amount, and one plain sentence."""

    claim: ClaimResult
    rate_g_m2: float
    usual: Message
    """What the amount is, as ``a 5 cm mulch``."""
    verdict: Message


@dataclass(frozen=True, slots=True, kw_only=True)
class ClaimsSheet:
    """Materials side by side: the bed with them as claims, its answer, and a line for each."""

    case: Case
    answer: Answer
    lines: tuple[SheetLine, ...]
