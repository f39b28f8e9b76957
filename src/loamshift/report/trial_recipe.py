"""The small program that works a trial out again from its data, without this package."""

from __future__ import annotations

import json
from importlib import resources

from loamshift.domain.trial import Design, Trial


def trial_recipe(trial: Trial) -> str:
    """A program that reads the data of a trial and prints its differences day by day."""
    text = resources.files("loamshift.report").joinpath("trial_recipe.txt")
    control = json.dumps(trial.treatments[0].name, ensure_ascii=False)
    set_off = repr(trial.design is Design.BEFORE_AFTER)
    whole = text.read_text(encoding="utf-8").replace('"@CONTROL@"', control)
    return whole.replace('"@SET_OFF@"', set_off)
