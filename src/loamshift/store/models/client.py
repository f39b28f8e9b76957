"""Clients and their gardens: who is advised, and where the beds lie."""

from __future__ import annotations

from typing import Any, ClassVar

from django.db import models

from loamshift.store.models.base import Kept


class Client(Kept):
    """A person or group that is advised. Only a name is needed; the rest is the office's note."""

    SOUGHT: ClassVar[tuple[str, ...]] = ("name", "contact", "note")

    name = models.CharField(max_length=160)
    contact = models.TextField(blank=True, default="", max_length=1000)
    note = models.TextField(blank=True, default="", max_length=4000)

    class Meta:
        """Found by name."""

        ordering = ("sought", "id")

    def __str__(self) -> str:
        """The name."""
        return self.name


def empty_plan() -> dict[str, Any]:
    """A garden plan with nothing drawn: width and height [m], areas as corner points [m]."""
    return {"width_m": 20.0, "height_m": 12.0, "areas": []}


class Garden(Kept):
    """One place of a client: its climate as the case file's ``[place]`` has it, and its plan.

    ``plan`` is ``{"width_m", "height_m", "areas": [{"name", "bed", "points": [[x, y], ...]}]}``
    with metres from the top left corner; an area named for a bed feeds that bed's size.
    """

    client = models.ForeignKey(Client, on_delete=models.CASCADE, related_name="gardens")
    name = models.CharField(max_length=160)
    place = models.JSONField(default=dict, blank=True)
    plan = models.JSONField(default=empty_plan, blank=True)

    class Meta:
        """Found by name."""

        ordering = ("sought", "id")

    def __str__(self) -> str:
        """The name."""
        return self.name
