"""The record of changes, from which anything of the last thirty days is taken back."""

from __future__ import annotations

import uuid

from django.conf import settings
from django.db import models

from loamshift.store.models.office import Office


class Change(models.Model):
    """One changed thing, as it was before and as it was after.

    Things changed by one act share ``act`` and are taken back together. ``before`` is null for
    something new, ``after`` null never: what was put away is a change of ``deleted_at``.
    """

    office = models.ForeignKey(Office, on_delete=models.CASCADE, related_name="changes")
    user = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.SET_NULL, related_name="+"
    )
    at = models.DateTimeField(auto_now_add=True, db_index=True)
    act = models.UUIDField(default=uuid.uuid4, db_index=True)
    what = models.CharField(max_length=200)
    kind = models.CharField(max_length=20)
    thing = models.UUIDField(db_index=True)
    before = models.JSONField(null=True)
    after = models.JSONField()
    taken_back = models.BooleanField(default=False)

    class Meta:
        """The latest first."""

        ordering = ("-at", "-id")

    def __str__(self) -> str:
        """What was done."""
        return self.what
