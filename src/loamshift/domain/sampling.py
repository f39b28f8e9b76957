"""A plan for taking soil from a bed so that one test speaks for all of it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class SamplePlan:
    """How to sample one bed.

    ``cores`` to take and mix; ``depth_cm`` of each; ``error_ph`` the half-width of the 95 %
    range that this many cores leave in the mean [pH]; ``core_sd_ph`` the spread assumed
    between single cores [pH]; ``volume_l`` of mixed soil to send [L]; the tuples are
    sentences in the order they are done, with ``{depth}``, ``{deeper}`` and ``{volume}`` where
    the reader's own units go. ``deeper_cm`` ends a second sample under trees and shrubs [cm].
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
    where: tuple[str, ...]
    how: tuple[str, ...]
    when: tuple[str, ...]
    why: tuple[str, ...]
    source_keys: tuple[str, ...]
