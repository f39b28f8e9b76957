"""Pairs of forecast and reading as a file without names, every column of it documented."""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable, Mapping, Sequence
from types import MappingProxyType
from typing import Any, Final

from loamshift.domain.message import message
from loamshift.domain.score import ScoredPair
from loamshift.report.messages import say
from loamshift.report.words import Words

FORMAT: Final = 1


def _yes(is_so: bool) -> str:
    return "yes" if is_so else "no"


def _planned(pair: ScoredPair) -> float:
    return sum(part.rate_g_m2 for part in pair.issued.parts if part.on < pair.read.on)


def _quantile(place: int) -> Callable[[ScoredPair], float]:
    return lambda pair: pair.quantiles[place]


def _fact(name: str) -> Callable[[ScoredPair], Any]:
    return lambda pair: getattr(pair.issued.facts, name)


COLUMNS: Final[Mapping[str, Callable[[ScoredPair], Any]]] = MappingProxyType(
    {
        "region": _fact("region"),
        "issued_as": lambda pair: pair.issued.issued_as.value,
        "issued_month": lambda pair: f"{pair.issued.on:%Y-%m}",
        "lead_days": lambda pair: pair.lead_days,
        "counted": lambda pair: "yes" if pair.left_out is None else pair.left_out.value,
        "bed_kind": _fact("bed_kind"),
        "medium": _fact("medium"),
        "planted": _fact("planted"),
        "texture": _fact("texture"),
        "organic_matter_pct": _fact("organic_matter_pct"),
        "fizz": _fact("fizz"),
        "carbonate_pct": _fact("carbonate_pct"),
        "depth_cm": _fact("depth_cm"),
        "water_alkalinity_mg_l_as_caco3": _fact("water_alkalinity_mg_l_as_caco3"),
        "decision": _fact("decision"),
        "planned_g_m2": _planned,
        "model": _fact("model"),
        "tables": _fact("tables"),
        "measured_ph": lambda pair: pair.issued.measured_ph,
        "measured_sd": lambda pair: pair.issued.measured_sd,
        "method": lambda pair: pair.read.method.value,
        "read_ph": lambda pair: pair.read.ph_water,
        "read_sd": lambda pair: pair.read.ph_water_sd,
        "q05": _quantile(0),
        "q25": _quantile(1),
        "q50": _quantile(2),
        "q75": _quantile(3),
        "q95": _quantile(4),
        "error": lambda pair: pair.error,
        "share_below": lambda pair: pair.share_below,
        "inside_50": lambda pair: _yes(pair.is_inside_50),
        "inside_90": lambda pair: _yes(pair.is_inside_90),
        "crps": lambda pair: pair.crps,
        "crps_stays": lambda pair: pair.crps_stays,
    }
)
"""What each column holds, after the number of the bed; ``score-pair-COLUMN`` documents it."""
BED: Final = "bed"


def pair_rows(pairs: Sequence[ScoredPair]) -> list[dict[str, Any]]:
    """Pairs as rows that name nobody, in an order that tells nothing of the office.

    Returns
    -------
    list of dict
        Values by column; beds are numbered in the order they come in the file.
    """
    rows = [(pair.bed_key or pair.bed, pair_row(pair)) for pair in pairs]
    rows.sort(key=lambda row: json.dumps(row[1], sort_keys=True))
    numbers: dict[str, int] = {}
    found = []
    for bed, row in rows:
        number = numbers.setdefault(bed, len(numbers) + 1)
        found.append({BED: number, **row})
    return found


def pair_row(pair: ScoredPair) -> dict[str, Any]:
    """What a row holds of a pair, by column, the number of the bed left out."""
    return {name: _rounded(of(pair)) for name, of in COLUMNS.items()}


def pair_columns(words: Words) -> dict[str, str]:
    """What each column of the file holds, by its name."""
    return {
        name: say(message(f"score-pair-{name.replace('_', '-')}"), words)
        for name in (BED, *COLUMNS)
    }


def pairs_csv(pairs: Sequence[ScoredPair]) -> str:
    """The pairs as CSV; a value that nobody knows is empty."""
    text = io.StringIO()
    writer = csv.DictWriter(text, (BED, *COLUMNS), lineterminator="\r\n")
    writer.writeheader()
    writer.writerows(pair_rows(pairs))
    return text.getvalue()


def pairs_json(pairs: Sequence[ScoredPair], *, words: Words) -> str:
    """The pairs as JSON, with what each column holds."""
    tree = {"format": FORMAT, "columns": pair_columns(words), "pairs": pair_rows(pairs)}
    return json.dumps(tree, ensure_ascii=False, indent=1) + "\n"


def _rounded(value: Any) -> Any:
    return round(value, 4) if isinstance(value, float) else value
