"""What every kept thing has: an id for life, its office, a version, and a day it was put away."""

from __future__ import annotations

import uuid
from django.db import models


class Kept(models.Model):
    """Anything a user makes.

    ``version`` rises by one with every change, so that of two people who change the same thing
    the later is told. ``deleted_at`` is the moment it was put away; what was put away can be
    taken back for thirty days.
    """

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    office = models.ForeignKey("store.Office", on_delete=models.CASCADE, related_name="+")
    version = models.PositiveIntegerField(default=1)
    created_at = models.DateTimeField(auto_now_add=True)
    changed_at = models.DateTimeField(auto_now=True)
    deleted_at = models.DateTimeField(null=True, blank=True, db_index=True)

    class Meta:
        """Abstract: each kept thing has a table of its own."""

        abstract = True
