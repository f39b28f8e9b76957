"""Beds keep their case as JSON; the text they had stays beside it, and so in the changes."""

from __future__ import annotations

import json
import tomllib
from datetime import date, time
from typing import Any

from django.apps.registry import Apps
from django.db import migrations, models
from django.db.backends.base.schema import BaseDatabaseSchemaEditor

AT_ONCE = 200


def fill(apps: Apps, editor: BaseDatabaseSchemaEditor) -> None:
    """Read every text; one that is no TOML stays as it is, with an empty case."""
    beds = apps.get_model("store", "Bed")._default_manager
    for bed in beds.only("own_text").iterator(chunk_size=AT_ONCE):
        beds.filter(pk=bed.pk).update(case_json=_tree(bed.own_text))
    changes = apps.get_model("store", "Change")._default_manager
    for change in changes.filter(kind="bed").iterator(chunk_size=AT_ONCE):
        before, after = _renamed(change.before), _renamed(change.after)
        if (before, after) != (change.before, change.after):
            changes.filter(pk=change.pk).update(before=before, after=after)


def _renamed(values: dict[str, Any] | None) -> dict[str, Any] | None:
    if values is None or "case_text" not in values:
        return values
    text = values["case_text"]
    others = {key: value for key, value in values.items() if key != "case_text"}
    return {**others, "case_json": _tree(text), "own_text": text}


def _tree(text: str) -> Any:
    try:
        tree = _plain(tomllib.loads(text))
        json.dumps(tree, allow_nan=False)  # no database takes what is no number
        return tree
    except (ValueError, RecursionError):
        return {}


def _plain(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _plain(one) for key, one in value.items()}
    if isinstance(value, list):
        return [_plain(one) for one in value]
    if isinstance(value, str):
        return value.replace("\x00", " ")
    return value.isoformat() if isinstance(value, (date, time)) else value


class Migration(migrations.Migration):
    """One column more, and another name for the text."""

    dependencies = [("store", "0005_forecasts_issued")]

    operations = [
        migrations.AddField("bed", "case_json", models.JSONField(blank=True, default=dict)),
        migrations.RenameField("bed", "case_text", "own_text"),
        migrations.AlterField(
            "bed", "own_text", models.TextField(blank=True, default="", max_length=1_000_000)
        ),
        migrations.RunPython(fill),
    ]
