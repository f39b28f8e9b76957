"""An office and the people who sign in to it; a single adviser has one office and no sign-in."""

from __future__ import annotations

import uuid
from typing import Any, ClassVar

from django.contrib.auth.models import AbstractUser, UserManager
from django.db import models
from django.utils import timezone


class Office(models.Model):
    """Whose beds these are, and how they like to read: units, words, money, letterhead."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    name = models.CharField(max_length=120, default="My beds")
    units = models.CharField(
        max_length=10, default="metric", choices=[("metric", "metric"), ("us", "US")]
    )
    words = models.CharField(max_length=10, default="uk", choices=[("uk", "UK"), ("us", "US")])
    paper = models.CharField(
        max_length=10, default="a4", choices=[("a4", "A4"), ("letter", "US Letter")]
    )
    currency = models.CharField(max_length=3, blank=True, default="")
    letterhead = models.TextField(blank=True, default="", max_length=600)
    online_weather = models.BooleanField(default=False)
    toured = models.BooleanField(default=False)
    created_at = models.DateTimeField(default=timezone.now, editable=False)

    class Meta:
        """The oldest first."""

        ordering = ("created_at", "id")

    def __str__(self) -> str:
        """Its name."""
        return self.name


class Role(models.TextChoices):
    """What a person may do: an adviser changes things, a reader only looks."""

    ADVISER = "adviser", "adviser"
    READER = "reader", "reader"


class User(AbstractUser):
    """A person of an office who signs in; only used where the workbench serves an office."""

    office = models.ForeignKey(Office, null=True, on_delete=models.CASCADE, related_name="people")
    role = models.CharField(max_length=10, choices=Role.choices, default=Role.READER)

    objects: ClassVar[UserManager[Any]] = UserManager()

    @property
    def may_change(self) -> bool:
        """True for advisers."""
        return self.role == Role.ADVISER
