"""Pool the sources of measured buffering and write ``parameters/buffer_scale.csv``.

    python tools/tables/fit_buffer_scale.py            write the rows
    python tools/tables/fit_buffer_scale.py --scores   print what the pooling shows

Not a part of ``build.py``: the rows are read like any others, and a test repeats the fit. Two rows
come from data that may not be copied here; their arithmetic stands in their notes.
"""

from __future__ import annotations

import csv
import sys
from collections.abc import Sequence

from buffer_pooling import WEAK_SLOPE, Point, fit, left_out, points, score
from common import PARAMETERS

FLAT_SD = 0.20
"""What one sd for every soil of known clay and carbon was before [log10]."""
COLUMNS = (
    "name", "value", "unit", "low", "high", "sd", "source_key", "where", "evidence", "note",
)  # fmt: skip
_VIEW = (
    "in view: the ten functions, among them those the slopes of the curve were chosen between, a "
    "liming trial, one Brazilian field and Wisconsin samples by buffer pH"
)


def rows() -> list[dict[str, str]]:
    """The rows of the topic, fitted about the curve as it is."""
    spread, _, _ = fit(points())
    return [
        _row(
            "log10_k_sd_between_sources",
            f"{spread.source:.2f}",
            "13 sources, maximum likelihood about the curve as it is",
            "derived",
            f"one sigma between groups of soils, as a share; {_VIEW}",
        ),
        _row(
            "log10_k_sd_weak_soil",
            f"{spread.weak:.2f}",
            "13 sources, maximum likelihood about the curve as it is",
            "derived",
            "groups of soils differ by an amount besides: this much of a soil at the slope below, "
            f"in proportion less of a stronger one; {_VIEW}",
        ),
        _row(
            "weak_slope_mmolc_kg_ph",
            f"{WEAK_SLOPE:g}",
            "weakest soils of the functions have slopes of 12",
            "judgement",
            "slope at and below which the deviation of weak soils counts in full",
            unit="mmolc/kg/pH",
        ),
        _row(
            "log10_k_sd_between_soils",
            f"{spread.soil:.2f}",
            "median R2 0.87 of the functions, on a spread of 0.25 within a region",
            "derived",
            "one sigma of soils about the function of their own region",
        ),
        _row(
            "log10_k_sd_carbon_unknown",
            "0.18",
            "29 field and farm data sets, and 303 topsoils of the Dutch soil map",
            "derived",
            "Our arithmetic: log10 of the curve's slope at a soil's clay and carbon over that at "
            "its clay and the usual carbon. Data sets: mean -0.03, sd 0.08 between, 0.08 within. "
            "Dutch topsoils: mean +0.22, sd 0.16 within a texture class. Half of either: 0.18. "
            "The old allowance of 0.13 held 94 % of the first and 51 % of the second.",
            source="schmidinger-2025",
        ),
        _row(
            "log10_k_sd_texture_felt",
            "0.06",
            "the class next to the right one, sand to sandy loam or loam to clay loam",
            "judgement",
            "a texture felt by hand may be one class off; clay within a class adds 0.02",
            source="own-judgement",
        ),
    ]


def _row(
    name: str,
    value: str,
    where: str,
    evidence: str,
    note: str,
    *,
    unit: str = "log10",
    source: str = "pooled-buffer-functions",
) -> dict[str, str]:
    return {
        "name": name,
        "value": value,
        "unit": unit,
        "source_key": source,
        "where": where,
        "evidence": evidence,
        "note": note,
    }


def texture(point: Point) -> str:
    """Sand, loam or clay, by clay content."""
    return "sand" if point.clay_pct < 10.0 else "loam" if point.clay_pct < 25.0 else "clay"


def humus(point: Point) -> str:
    """Low, middle or high organic carbon."""
    return "low" if point.carbon_pct < 1.0 else "middle" if point.carbon_pct < 2.0 else "high"


def step(point: Point) -> str:
    """Acid, middle or near-neutral part of the curve."""
    return "below 5.2" if point.middle_ph < 5.2 else "to 6" if point.middle_ph < 6.0 else "above 6"


def print_scores() -> None:
    """What the pooling shows, in the order of the decision record."""
    found = points()
    spread, _, likelihood = fit(found)
    _, mean, restricted = fit(found, mean=None)
    print(f"spreads {spread}\nmean {mean.at:+.3f}, error {mean.error:.3f}")
    groups: dict[str, Sequence[str]] = {
        "region": [point.region for point in found],
        "texture": [texture(point) for point in found],
        "humus": [humus(point) for point in found],
        "texture and humus": [f"{texture(point)} {humus(point)}" for point in found],
        "part of the curve": [step(point) for point in found],
    }
    for name, labels in groups.items():
        about = 2.0 * (fit(found, groups=labels)[2] - likelihood)
        free = 2.0 * (fit(found, groups=labels, mean=None)[2] - restricted)
        print(f"{name}: twice the log-likelihood gains {about:.2f}, restricted {free:.2f}")
    for name, met in (("one sd", left_out(found, flat_sd=FLAT_SD)), ("pooled", left_out(found))):
        print(f"{name}: {score(met)}")


def main() -> None:
    """Write the rows, or print the scores."""
    if "--scores" in sys.argv:
        print_scores()
        return
    fitted = rows()
    with (PARAMETERS / "buffer_scale.csv").open("w", encoding="utf-8", newline="") as handle:
        writer = csv.DictWriter(handle, COLUMNS, lineterminator="\n", restval="")
        writer.writeheader()
        writer.writerows(fitted)


if __name__ == "__main__":
    main()
