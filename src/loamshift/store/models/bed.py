"""A bed: its case as JSON, the one truth, with a few words drawn out to search by."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any, ClassVar

from django.db import models

from loamshift.store.models.base import Kept
from loamshift.store.models.client import Garden
from loamshift.store.toml_out import as_json, toml_text, without_nulls
from loamshift.store.toml_update import with_values


class Bed(Kept):
    """One bed, lawn, field or pot.

    ``case_json`` is the case by the keys of the schema: everything that is known of the bed, its
    tests and what was put on it stand there and nowhere else. ``own_text`` is the case file that
    somebody wrote, with their remarks, where the bed came from one; it always says the same.
    ``plants`` and ``decision`` are drawn from the case and from its last answer, for lists only;
    ``ph`` is the last pH read.
    """

    SOUGHT: ClassVar[tuple[str, ...]] = ("name", "plants")

    garden = models.ForeignKey(
        Garden, null=True, blank=True, on_delete=models.CASCADE, related_name="beds"
    )
    name = models.CharField(max_length=160)
    case_json = models.JSONField(default=dict, blank=True)
    own_text = models.TextField(blank=True, default="", max_length=1_000_000)
    plants = models.CharField(max_length=300, blank=True, default="")
    decision = models.CharField(max_length=20, blank=True, default="")
    ph = models.FloatField(null=True, blank=True)
    is_sample = models.BooleanField(default=False)

    class Meta:
        """Found by name."""

        ordering = ("sought", "id")

    def __str__(self) -> str:
        """The name."""
        return self.name

    @property
    def case_text(self) -> str:
        """The case as TOML: as somebody wrote it, or else by its keys in their order."""
        return self.own_text or _by_its_keys(self.case_json)

    @case_text.setter
    def case_text(self, text: str) -> None:
        """Take a case file; one that is no TOML is refused when the bed is to be kept."""
        try:
            self.case_json = as_json(tomllib.loads(text))
        except (ValueError, RecursionError):
            self.case_json = {}
        self.own_text = "" if text == _by_its_keys(self.case_json) else text

    def take_case(self, tree: Mapping[str, Any]) -> None:
        """Take a case by its keys; the remarks of a text of somebody's own stay in it."""
        self.case_json = as_json(tree)
        if self.own_text:
            self.own_text = with_values(self.own_text, self.case_json)


def _by_its_keys(tree: Mapping[str, Any]) -> str:
    return toml_text(without_nulls(tree)[0])
