"""Files of fields that were uploaded, and what was said of them."""

from __future__ import annotations

import uuid

from django.conf import settings
from django.db import models
from django.utils import timezone

from loamshift.store.models.client import Client
from loamshift.store.models.office import Office


class FieldFiles(models.Model):
    """Samples of a field, its boundary, and what somebody said of the field as a whole.

    ``told`` holds the case file of the field, and the method and the coordinate system of files
    that name none. It enters no bed, so it is kept as long as other files that are uploaded, and
    no longer than the client or the person who uploaded it.
    """

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    office = models.ForeignKey(Office, on_delete=models.CASCADE, related_name="+")
    user = models.ForeignKey(
        settings.AUTH_USER_MODEL, null=True, blank=True, on_delete=models.CASCADE, related_name="+"
    )
    client = models.ForeignKey(
        Client, null=True, blank=True, on_delete=models.CASCADE, related_name="field_files"
    )
    name = models.CharField(max_length=160)
    samples_name = models.CharField(max_length=200)
    samples = models.BinaryField()
    boundary_name = models.CharField(max_length=200, blank=True, default="")
    boundary = models.BinaryField(null=True, blank=True)
    told = models.JSONField(default=dict)
    changed_at = models.DateTimeField(default=timezone.now, db_index=True)

    class Meta:
        """The latest first."""

        ordering = ("-changed_at", "id")

    def __str__(self) -> str:
        """The name of the field."""
        return self.name
