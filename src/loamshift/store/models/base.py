"""What every kept thing has: an id for life, its office, a version, and a day it was put away."""

from __future__ import annotations

import unicodedata
import uuid
from typing import Any, ClassVar

from django.db import models
from django.utils import timezone


class Kept(models.Model):
    """Anything a user makes.

    ``version`` rises by one with every change, so that of two people who change the same thing
    the later is told. ``deleted_at`` is the moment it was put away; what was put away can be
    taken back for thirty days. ``sought`` holds the words of ``SOUGHT`` folded to plain small
    letters, so that lists are searched and sorted alike on every database.
    """

    SOUGHT: ClassVar[tuple[str, ...]] = ("name",)

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    office = models.ForeignKey("store.Office", on_delete=models.CASCADE, related_name="+")
    version = models.PositiveIntegerField(default=1)
    created_at = models.DateTimeField(default=timezone.now, editable=False)
    changed_at = models.DateTimeField(default=timezone.now, editable=False)
    deleted_at = models.DateTimeField(null=True, blank=True, db_index=True)
    sought = models.TextField(default="", blank=True, editable=False)

    class Meta:
        """Abstract: each kept thing has a table of its own."""

        abstract = True

    def save(self, *args: Any, **kwargs: Any) -> None:
        """Keep it, with the words it is found by."""
        self.sought = self.words_sought()
        super().save(*args, **kwargs)

    def words_sought(self) -> str:
        """The folded words it is found by, the name first."""
        return folded("\n".join(str(getattr(self, name)) for name in self.SOUGHT))


def folded(text: str) -> str:
    """A text without capitals and accents, for finding and sorting."""
    apart = unicodedata.normalize("NFKD", text.casefold())
    return "".join(sign for sign in apart if not unicodedata.combining(sign))
