"""A program as a user writes it: mypy reads it strictly, and the tests run it."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import loamshift


def program(folder: Path) -> tuple[str, float | None, str]:
    """Ask about one bed, from a case to a letter and a picture on disk."""
    case: loamshift.Case = loamshift.new_case(
        name="North border",
        soil={"ph": 6.9, "ph_method": "water 1:2.5", "texture": "loam", "organic_matter_pct": 4},
        aim={"target_ph": 5.8},
        today=date(2026, 4, 12),
    )
    advice: loamshift.Advice = loamshift.advise(case, years=0, units="us")
    advice.save(folder / "letter.md")
    picture: loamshift.Picture = advice.plot("dose")
    picture.save(folder / "dose.svg")
    band = loamshift.dose(case).sulfur_as_s_g_m2
    settled: loamshift.SettledClaim = loamshift.claim("gypsum", "1 kg/m2", case=case, years=0)
    table: dict[str, list[object]] = loamshift.dose_table({"ph": [6.9], "target_ph": [5.8]})
    curve: loamshift.BufferCurve = loamshift.buffer_curve(case)
    assert len(table["fault"]) == 1 and curve.clay_pct == 20.0
    return advice.decision.value, None if band is None else band.mid, settled.comment
