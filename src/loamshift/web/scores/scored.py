"""The pairs of forecast and reading among some beds."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any, Final

from django.db.models import QuerySet

from loamshift.domain.case import Case
from loamshift.domain.score import IssuedForecast, ScoredPair, ScoreSummary
from loamshift.errors import InputError
from loamshift.services.score.pairs import scored_pairs
from loamshift.services.score.summary import score_summary
from loamshift.services.score.trials import trial_pairs
from loamshift.store.models import Bed, Office, Trial
from loamshift.store.scope import kept
from loamshift.web.cases import case_of, key_of
from loamshift.web.once import Once
from loamshift.web.scores.issued import draw_from_letters, forecasts_of
from loamshift.web.trials.opened import opened, result_of

_CASES: Final[Once[Case]] = Once(1024)


@dataclass(frozen=True, slots=True, kw_only=True)
class Scored:
    """Pairs with what they show; ``unread`` letters and ``faulty`` beds are missing from them."""

    pairs: tuple[ScoredPair, ...]
    summary: ScoreSummary
    unread: int
    faulty: int


def scored(beds: QuerySet[Bed], office: Office, *, today: date) -> Scored:
    """Every reading of some beds that a forecast had been issued for."""
    unread = draw_from_letters(office)
    issued = forecasts_of(beds)
    pairs: list[ScoredPair] = []
    faulty = 0
    for bed in beds.filter(pk__in=issued):
        try:
            pairs += pairs_of(bed, issued[bed.pk], today=today)
        except (InputError, ValueError):
            faulty += 1
    for trial in kept(Trial, office).filter(bed__in=beds).exclude(readings_text=""):
        try:
            there = opened(trial)
            pairs += trial_pairs(result_of(there, trial), bed=trial.name, bed_key=str(trial.bed_id))
        except (InputError, ValueError):
            faulty += 1
    found = tuple(pairs)
    return Scored(pairs=found, summary=score_summary(found), unread=unread, faulty=faulty)


def counted_of(bed: Bed, office: Office, *, today: date) -> tuple[int, int]:
    """How many tests of a bed were within their forecasts, and of how many [count].

    Raises
    ------
    InputError
        Where its case file cannot be used.
    """
    draw_from_letters(office)
    issued = forecasts_of(Bed.objects.filter(pk=bed.pk)).get(bed.pk)
    pairs = pairs_of(bed, issued, today=today) if issued else ()
    summary = score_summary(pairs)
    return summary.inside_90, summary.count


def pairs_of(bed: Bed, issued: list[IssuedForecast], *, today: date) -> tuple[ScoredPair, ...]:
    """The pairs of one bed.

    Raises
    ------
    InputError
        Where its case file cannot be used.
    """
    tree = bed.case_json
    first = min(one.on for one in issued)
    if not _read_since(tree, first):
        return ()
    case = _CASES.get((key_of(tree), today), lambda: case_of(tree, today=today))
    return scored_pairs(case, issued, bed=bed.name, bed_key=str(bed.pk))


def _read_since(tree: dict[str, Any], first: date) -> bool:
    """False where no reading can have a day after the first forecast, told without the case."""
    days = [row.get("date") for row in tree.get("reading") or () if isinstance(row, dict)]
    days.append((tree.get("soil") or {}).get("sampled"))
    return any(day is not None and str(day)[:10] > first.isoformat() for day in days)
