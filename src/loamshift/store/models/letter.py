"""Letters sent: frozen answers that reopen the same."""

from __future__ import annotations

from typing import ClassVar

from django.db import models

from loamshift.store.models.base import Kept
from loamshift.store.models.bed import Bed


class SentLetter(Kept):
    """A letter as it went out.

    ``answer_text`` is the whole answer with its case and its letter, as
    ``loamshift reprint`` reads it; nothing in it is ever worked out again.
    """

    SOUGHT: ClassVar[tuple[str, ...]] = ("title", "note")

    bed = models.ForeignKey(Bed, on_delete=models.CASCADE, related_name="letters")
    title = models.CharField(max_length=200)
    sent_on = models.DateField()
    decision = models.CharField(max_length=20)
    answer_text = models.TextField(max_length=20_000_000)
    note = models.TextField(blank=True, default="", max_length=2000)

    class Meta:
        """The latest first."""

        ordering = ("-sent_on", "-created_at", "id")

    def __str__(self) -> str:
        """Title and day."""
        return f"{self.title}, {self.sent_on}"
