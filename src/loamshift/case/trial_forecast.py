"""The forecast of a trial as a file beside it, kept before the first reading."""

from __future__ import annotations

import dataclasses
import datetime
import json
from typing import Any, Final

from loamshift.case.mend import Refused
from loamshift.domain.message import Given, message
from loamshift.domain.trial import Expected, Prediction

FORECAST_VERSION: Final = 1


def forecast_json(prediction: Prediction) -> str:
    """A forecast as JSON."""
    plain = dataclasses.asdict(prediction)
    plain["made_on"] = prediction.made_on.isoformat()
    return json.dumps({"trial_forecast": FORECAST_VERSION, **plain}, indent=1) + "\n"


def forecast_from_json(text: str, *, source: str) -> Prediction:
    """A forecast that was kept.

    Raises
    ------
    Refused
        Where the text is no forecast of a trial.
    """
    try:
        plain: dict[str, Any] = json.loads(text)
        if plain["trial_forecast"] != FORECAST_VERSION:
            raise ValueError(plain["trial_forecast"])
        return Prediction(
            digest=str(plain["digest"]),
            made_on=datetime.date.fromisoformat(plain["made_on"]),
            version=str(plain["version"]),
            seed=int(plain["seed"]),
            rows=tuple(Expected(**row) for row in plain["rows"]),
            days_advised=tuple(int(day) for day in plain["days_advised"]),
        )
    except (ValueError, KeyError, TypeError) as error:
        raise Refused(message("trial-no-forecast-file", file=Given(source))) from error
