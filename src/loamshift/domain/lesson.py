"""What a lesson shows: the layers of a bed day by day, with a material and without."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from loamshift.domain.answer import Answer
from loamshift.domain.case import Case
from loamshift.domain.own_sum import OwnSum


@dataclass(frozen=True, slots=True, kw_only=True)
class LayerCourse:
    """The middle of the possible beds, layer by layer; T days and L layers, the top one first.

    ``edges_cm`` (L + 1) are the depths between the layers [cm]. ``with_ph`` and ``alone_ph``
    (T, L) are with the material and without it [pH in water], ``lime_pct`` (T, L) the free lime
    that is left with it [% CaCO3 by weight]. The first day is the evening before it goes on.
    """

    edges_cm: tuple[float, ...]
    dates: tuple[date, ...]
    with_ph: tuple[tuple[float, ...], ...]
    alone_ph: tuple[tuple[float, ...], ...]
    lime_pct: tuple[tuple[float, ...], ...]

    @property
    def layers(self) -> tuple[tuple[float, float], ...]:
        """Top and bottom of each layer [cm]."""
        return tuple(zip(self.edges_cm[:-1], self.edges_cm[1:], strict=True))


@dataclass(frozen=True, slots=True, kw_only=True)
class Lesson:
    """One material on one soil for a class: what is claimed of it, its sums, its layers."""

    case: Case
    answer: Answer
    layers: LayerCourse
    sums: tuple[OwnSum, ...]
