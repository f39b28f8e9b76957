"""Questions that wait for an answer, in the words of those who asked."""

from __future__ import annotations

from typing import ClassVar

from django.db import models

from loamshift.store.models.base import Kept
from loamshift.store.models.bed import Bed


class Question(Kept):
    """A question as it came: typed, pasted from an e-mail, or a row of an import.

    ``words`` are never changed. ``bed`` is the one that was made of it; with it, or once
    ``closed``, it waits no longer.
    """

    SOUGHT: ClassVar[tuple[str, ...]] = ("sender", "words")

    sender = models.CharField(max_length=160, blank=True, default="")
    words = models.TextField(max_length=20_000)
    source = models.CharField(
        max_length=10,
        default="typed",
        choices=[("typed", "typed"), ("email", "e-mail"), ("import", "import")],
    )
    received_on = models.DateField()
    bed = models.ForeignKey(
        Bed, null=True, blank=True, on_delete=models.SET_NULL, related_name="questions"
    )
    closed = models.BooleanField(default=False)

    class Meta:
        """The longest waiting first."""

        ordering = ("received_on", "created_at", "id")

    def __str__(self) -> str:
        """Who asked, or the beginning of the words."""
        return self.sender or self.words[:60]
