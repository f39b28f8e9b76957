"""Trials of a bed or a client, and titrations in jars."""

from __future__ import annotations

import tomllib
from typing import ClassVar

from django.db import models

from loamshift.store.models.base import Kept
from loamshift.store.models.bed import Bed
from loamshift.store.models.client import Client
from loamshift.store.toml_out import as_json, toml_text, without_nulls


class Trial(Kept):
    """One trial: its design, the forecast kept before its first reading, and its readings.

    ``trial_json`` is the trial by the keys of the trial schema, the soil of its bed on the day it
    was designed among them, so that later changes of the bed leave the trial as it was.
    ``readings_text`` and ``forecast_text`` are what ``loamshift trial`` keeps beside a trial file,
    each in the same form; empty where there is none.
    """

    SOUGHT: ClassVar[tuple[str, ...]] = ("name", "question")

    bed = models.ForeignKey(
        Bed, null=True, blank=True, on_delete=models.SET_NULL, related_name="trials"
    )
    client = models.ForeignKey(
        Client, null=True, blank=True, on_delete=models.SET_NULL, related_name="trials"
    )
    name = models.CharField(max_length=160)
    question = models.TextField(blank=True, default="", max_length=2000)
    starts_on = models.DateField()
    trial_json = models.JSONField(default=dict, blank=True)
    readings_text = models.TextField(blank=True, default="", max_length=2_000_000)
    forecast_text = models.TextField(blank=True, default="", max_length=2_000_000)

    class Meta:
        """The latest first."""

        ordering = ("-starts_on", "sought", "id")

    def __str__(self) -> str:
        """The name."""
        return self.name

    @property
    def trial_text(self) -> str:
        """The trial as a file for ``loamshift trial``."""
        return toml_text(without_nulls(self.trial_json)[0])

    @trial_text.setter
    def trial_text(self, text: str) -> None:
        """Take a trial file; one that is no TOML is refused when the trial is to be kept."""
        try:
            self.trial_json = as_json(tomllib.loads(text))
        except (ValueError, RecursionError):
            self.trial_json = {}


class JarSeries(Kept):
    """A titration in jars of the soil of one bed.

    ``sheet_text`` is its sheet as CSV, as ``loamshift trial jars`` writes and reads it: what went
    into each jar when it was set up, and the pH as it comes back.
    """

    SOUGHT: ClassVar[tuple[str, ...]] = ()

    bed = models.ForeignKey(Bed, on_delete=models.CASCADE, related_name="jars")
    set_up_on = models.DateField()
    to_ph = models.FloatField()
    soil_g = models.FloatField()
    acid_mol_l = models.FloatField()
    sheet_text = models.TextField(max_length=20_000)

    class Meta:
        """The latest first."""

        ordering = ("-set_up_on", "-created_at", "id")

    def __str__(self) -> str:
        """The bed and the day."""
        return f"{self.bed.name}, {self.set_up_on}"
