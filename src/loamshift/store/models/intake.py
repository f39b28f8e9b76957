"""Files of laboratories and weather stations on their way into beds, and what was said of them."""

from __future__ import annotations

import uuid

from django.conf import settings
from django.db import models
from django.utils import timezone

from loamshift.store.models.bed import Bed
from loamshift.store.models.office import Office


class IntakeDraft(models.Model):
    """A file that somebody uploaded, with what they have answered so far.

    ``answers`` are those to its questions, ``beds`` the bed that each row was said to go to, by
    the row's place. ``act`` is the act that entered it, null while nothing of it has entered
    anything. Kept so long as what it entered can be undone, and no longer than the person who
    uploaded it or the garden it was for. A file of weather or of a soil thermometer is of one
    ``bed``; one of a laboratory is of none, as its rows go to several.
    """

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    office = models.ForeignKey(Office, on_delete=models.CASCADE, related_name="+")
    name = models.CharField(max_length=200)
    user = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.CASCADE, related_name="+"
    )
    bed = models.ForeignKey(
        Bed, null=True, blank=True, on_delete=models.CASCADE, related_name="weather_files"
    )
    content = models.BinaryField()
    laboratory = models.CharField(max_length=120, blank=True, default="")
    answers = models.JSONField(default=dict, blank=True)
    beds = models.JSONField(default=dict, blank=True)
    garden = models.UUIDField(null=True, blank=True)
    act = models.UUIDField(null=True, blank=True)
    changed_at = models.DateTimeField(default=timezone.now, db_index=True)

    class Meta:
        """The latest first."""

        ordering = ("-changed_at", "id")

    def __str__(self) -> str:
        """The name of the file."""
        return self.name


class LaboratoryAnswers(models.Model):
    """What was answered for the files of one laboratory, to be proposed for the next."""

    office = models.ForeignKey(Office, on_delete=models.CASCADE, related_name="+")
    laboratory = models.CharField(max_length=120)
    answers = models.JSONField(default=dict)

    class Meta:
        """By name; each once in an office."""

        ordering = ("laboratory", "id")
        constraints = (
            models.UniqueConstraint(fields=["office", "laboratory"], name="one_laboratory"),
        )

    def __str__(self) -> str:
        """The laboratory."""
        return self.laboratory
