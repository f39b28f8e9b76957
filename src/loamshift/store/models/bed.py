"""A bed: its case file as text, the one truth, with a few words drawn out to search by."""

from __future__ import annotations

from typing import ClassVar

from django.db import models

from loamshift.store.models.base import Kept
from loamshift.store.models.client import Garden


class Bed(Kept):
    """One bed, lawn, field or pot.

    ``case_text`` is the case file: everything that is known of the bed, its tests and
    what was put on it stand there and nowhere else. ``plants`` and ``decision`` are drawn from
    it and from its last answer, for lists only; ``ph`` is the last pH read.
    """

    SOUGHT: ClassVar[tuple[str, ...]] = ("name", "plants")

    garden = models.ForeignKey(
        Garden, null=True, blank=True, on_delete=models.CASCADE, related_name="beds"
    )
    name = models.CharField(max_length=160)
    case_text = models.TextField(max_length=1_000_000)
    plants = models.CharField(max_length=300, blank=True, default="")
    decision = models.CharField(max_length=20, blank=True, default="")
    ph = models.FloatField(null=True, blank=True)
    is_sample = models.BooleanField(default=False)

    class Meta:
        """Found by name."""

        ordering = ("sought", "id")

    def __str__(self) -> str:
        """The name."""
        return self.name
