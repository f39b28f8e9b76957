"""A plan for taking soil from a bed so that one test speaks for all of it."""

from __future__ import annotations

from dataclasses import dataclass

from loamshift.domain.message import Message, Prose


@dataclass(frozen=True, slots=True, kw_only=True)
class CoresLine:
    """What a mix of so many ``cores`` is worth.

    ``error_ph`` half-width of the 95 % range that it leaves in the mean, ``one_more_saves_ph``
    what one core more would take off that [pH].
    """

    cores: int
    error_ph: float
    one_more_saves_ph: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SamplePlan:
    """How to sample one bed.

    ``cores`` to take and mix; ``depth_cm`` of each; ``error_ph`` the half-width of the 95 %
    range that this many cores leave in the mean [pH]; ``core_sd_ph`` the spread assumed
    between single cores [pH]; ``volume_l`` of mixed soil to send [L]; the tuples are steps in
    the order they are done, the first sentence of each being what a short sheet says.
    ``deeper_cm`` ends a second sample under trees and shrubs [cm].
    """

    cores: int
    depth_cm: float
    deeper_cm: float | None
    error_ph: float
    core_sd_ph: float
    wanted_error_ph: float
    volume_l: float
    samples: int
    """Separate mixed samples to send, where one would average unlike things."""
    where: tuple[Prose, ...]
    how: tuple[Prose, ...]
    when: tuple[Prose, ...]
    why: tuple[Prose, ...]
    by_cores: tuple[CoresLine, ...]
    tools: tuple[Message, ...]
    ask: tuple[Message, ...]
    """What to have the laboratory find and print."""
    source_keys: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class SampleWalk:
    """Where the cores are taken, drawn on a plan.

    Places are shares of length and width, (0, 0) at one corner [0-1]. ``path`` is walked from
    its first point to its last and is empty for pots; ``pots`` are their middles, empty for a
    bed. ``length_m``, ``width_m`` are those of a bed of the area given, drawn longer than wide
    because nobody said its shape [m]; ``step_m`` lies between one core and the next along the
    path [m]. All three are None where the area is not known, and for pots.
    """

    spots: tuple[tuple[float, float], ...]
    path: tuple[tuple[float, float], ...]
    pots: tuple[tuple[float, float], ...]
    aspect: float
    """Length over width of the plan."""
    pot_radius: float | None
    """Of each pot drawn, as a share of the length; None without pots."""
    length_m: float | None
    width_m: float | None
    step_m: float | None
