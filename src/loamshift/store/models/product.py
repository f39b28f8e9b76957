"""The shelf: products an office has or buys, with their prices."""

from __future__ import annotations

from typing import ClassVar

from django.db import models

from loamshift.store.models.base import Kept


class Product(Kept):
    """A product: what it is by the shipped materials, how pure, how packed, what it costs.

    ``material`` is a name the case file would take (``elemental sulfur, powder``); ``pack`` a
    quantity as written (``25 kg``). ``label`` is the analysis on the bag as the case file takes it
    (``n_ammonium_pct = 21, s_sulfate_pct = 24``); with one, ``material`` may be an own name.
    """

    SOUGHT: ClassVar[tuple[str, ...]] = ("name", "material", "note")

    name = models.CharField(max_length=160)
    material = models.CharField(max_length=160)
    purity_pct = models.FloatField(null=True, blank=True)
    label = models.TextField(blank=True, default="", max_length=1000)
    pack = models.CharField(max_length=40, blank=True, default="")
    price = models.FloatField(null=True, blank=True)
    currency = models.CharField(max_length=3, blank=True, default="")
    in_stock = models.BooleanField(default=True)
    note = models.TextField(blank=True, default="", max_length=1000)

    class Meta:
        """Found by name."""

        ordering = ("sought", "id")

    def __str__(self) -> str:
        """The name."""
        return self.name
