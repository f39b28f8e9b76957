"""The last letter that was sent for a bed: which it is, and the answer it holds."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from django.db.models import QuerySet

from loamshift.store.models import Bed, SentLetter


def letters_of(bed: Any) -> QuerySet[SentLetter]:
    """Letters of a bed that are kept, the last first."""
    letters = SentLetter.objects.filter(bed=bed, deleted_at__isnull=True)
    return letters.order_by("-sent_on", "-created_at")


def last_sent(bed: Bed) -> UUID | None:
    """The last letter of a bed [id]."""
    return letters_of(bed).values_list("pk", flat=True).first()


def answer_text_of(letter: UUID) -> str:
    """The answer of a letter as JSON."""
    found = SentLetter.objects.filter(pk=letter).values_list("answer_text", flat=True)
    return next(iter(found), "")
