"""Keys for programs that use the API, and how often a sign-in has failed."""

from __future__ import annotations

from django.conf import settings
from django.db import models
from django.utils import timezone


class ApiKey(models.Model):
    """A key of one person for one program; only its fingerprint is kept.

    ``digest`` is the SHA-256 of the key: a key has 256 random bits, so that nothing slower
    is needed against guessing.
    """

    user = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.CASCADE, related_name="keys"
    )
    name = models.CharField(max_length=80)
    digest = models.CharField(max_length=64, unique=True)
    made_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        """The oldest first."""

        ordering = ("made_at", "id")

    def __str__(self) -> str:
        """What it is for."""
        return self.name


class FailedSignIn(models.Model):
    """How often sign-in failed for one name or one address, and since when it may be tried again.

    ``whose`` is a keyed fingerprint, so that the table tells nobody who tried.
    """

    whose = models.CharField(max_length=64, primary_key=True)
    times = models.PositiveIntegerField(default=0)
    last_at = models.DateTimeField(default=timezone.now, db_index=True)

    def __str__(self) -> str:
        """The count alone."""
        return str(self.times)
