"""What an office may see: every question to the store starts here."""

from __future__ import annotations

from typing import TypeVar

from django.db.models import QuerySet

from loamshift.store.models import Kept, Office

Thing = TypeVar("Thing", bound=Kept)


def kept(model: type[Thing], office: Office) -> QuerySet[Thing]:
    """What this office has and has not put away."""
    return model._default_manager.filter(office=office, deleted_at__isnull=True)


def put_away(model: type[Thing], office: Office) -> QuerySet[Thing]:
    """What this office has put away and may still take back."""
    return model._default_manager.filter(office=office, deleted_at__isnull=False)
