"""The record of changes, from which anything of the last thirty days is taken back."""

from __future__ import annotations

import uuid

from django.conf import settings
from django.db import models
from django.utils import timezone

from loamshift.store.models.office import Office


class Change(models.Model):
    """One changed thing: the fields that changed, as they were before and as they were after.

    Things changed by one act share ``act`` and are taken back together. For something new
    ``before`` is null and ``after`` holds every field; what was put away is a change of
    ``deleted_at``. ``who`` is the name of the person, kept also when the account is gone.
    ``said`` is what was done as a message; ``what`` its text for programmers, and in
    records of earlier versions, which have no message, for everybody.
    """

    office = models.ForeignKey(
        Office, on_delete=models.CASCADE, related_name="changes", db_index=False
    )
    user = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.SET_NULL, related_name="+"
    )
    who = models.CharField(max_length=150, blank=True, default="")
    at = models.DateTimeField(default=timezone.now, db_index=True)
    act = models.UUIDField(default=uuid.uuid4, db_index=True)
    what = models.CharField(max_length=200)
    said = models.TextField(blank=True, default="")
    kind = models.CharField(max_length=20)
    thing = models.UUIDField(db_index=True)
    before = models.JSONField(null=True)
    after = models.JSONField()
    taken_back = models.BooleanField(default=False)

    class Meta:
        """The latest first."""

        ordering = ("-at", "-id")
        indexes = (models.Index(fields=("office", "at"), name="change_office_at"),)

    def __str__(self) -> str:
        """What was done."""
        return self.what
