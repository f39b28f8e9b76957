"""Forecasts as they were issued, kept to be held against later readings."""

from __future__ import annotations

import uuid

from django.db import models

from loamshift.store.models.bed import Bed
from loamshift.store.models.letter import SentLetter
from loamshift.store.models.office import Office


class ForecastIssued(models.Model):
    """A forecast on the day it was issued: with a letter, or with a plan that was saved.

    That of a letter is drawn from the letter, which holds it whole, so that letters brought back
    from a file have theirs; of a plan the last of a day is kept. ``course`` holds dates,
    quantiles, what the bed had read, the parts of the plan, and facts no closer than a region; it
    is null for a letter without a forecast. Nobody changes it, so it has no versions.
    """

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    office = models.ForeignKey(Office, on_delete=models.CASCADE, related_name="+")
    bed = models.ForeignKey(Bed, on_delete=models.CASCADE, related_name="forecasts")
    letter = models.OneToOneField(
        SentLetter, null=True, on_delete=models.CASCADE, related_name="forecast"
    )
    issued_on = models.DateField()
    course = models.JSONField(null=True)

    class Meta:
        """The earliest first; one of a saved plan for a bed and a day."""

        ordering = ("issued_on", "id")
        constraints = (
            models.UniqueConstraint(
                fields=["bed", "issued_on"],
                condition=models.Q(letter__isnull=True),
                name="one_plan_a_day",
            ),
        )

    def __str__(self) -> str:
        """Bed and day."""
        return f"{self.bed_id}, {self.issued_on}"
