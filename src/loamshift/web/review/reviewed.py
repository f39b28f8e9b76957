"""The year of some beds from what the store holds of them."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from functools import partial
from time import monotonic
from typing import Any, Final

from django.db.models import QuerySet

from loamshift.case.answer_file import answer_file_from_json
from loamshift.domain.answer import Answer
from loamshift.domain.review import Bag, BedYear, YearReview
from loamshift.domain.score import ScoredPair
from loamshift.errors import InputError
from loamshift.services.review.bed_year import bed_year
from loamshift.services.review.to_buy import to_buy
from loamshift.services.score.summary import score_summary
from loamshift.store.models import Bed, Garden, Office, Product, SentLetter
from loamshift.store.scope import kept
from loamshift.web.beds.views.listing import with_last_letter
from loamshift.web.cases import key_of
from loamshift.web.once import Once
from loamshift.web.products.entries import usable
from loamshift.web.products.with_shelf import Entry, case_with_shelf, in_stock, shelf_entries
from loamshift.web.scores.scored import scored

PATIENCE_S: Final = 6.0
"""So long one page thinks about beds that nobody has thought about yet [s]."""
_YEARS: Final[Once[BedYear]] = Once(1024)
_LETTERS: Final[Once[Answer | None]] = Once(512)


def reviewed(
    beds: QuerySet[Bed], office: Office, *, year: int, today: date, with_where: str = ""
) -> YearReview:
    """The year of some beds, and what they need until the end of the next.

    Parameters
    ----------
    with_where
        What names a bed beside its own name: ``garden``, ``client`` or nothing.
    """
    until = date(max(year, today.year) + 1, 12, 31)
    pairs: dict[str, list[ScoredPair]] = {}
    for pair in scored(beds, office, today=today).pairs:
        pairs.setdefault(pair.bed_key, []).append(pair)
    shelf = shelf_entries(in_stock(office))
    found: list[BedYear] = []
    faulty = waiting = 0
    ends = monotonic() + PATIENCE_S
    ordered = with_last_letter(beds).order_by(
        "garden__client__sought", "garden__sought", "sought", "id"
    )
    for bed in ordered:
        of_bed = tuple(pairs.get(str(bed.pk), ()))
        where = "" if bed.garden is None or not with_where else where_of(bed.garden, with_where)
        sent = getattr(bed, "sent", None)
        about = (sent, shelf, of_bed, year, today, until, where)
        key = (key_of(bed.case_json), *about)
        if monotonic() > ends and _YEARS.found(key) is None:
            waiting += 1
            continue
        try:
            found.append(_YEARS.get(key, partial(_of, bed, *about)))
        except InputError:
            faulty += 1
    scored_then = [pair for one in found for pair in one.scored]
    return YearReview(
        year=year,
        today=today,
        until=until,
        beds=tuple(found),
        summary=score_summary(scored_then),
        to_buy=to_buy(found, tuple(bags_of(office))),
        faulty=faulty,
        waiting=waiting,
    )


def years_of(beds: QuerySet[Bed], *, today: date) -> list[int]:
    """Years with a dated test or application, and this one, the latest first."""
    years = {today.year}
    for tree in beds.values_list("case_json", flat=True):
        years |= {int(day[:4]) for day in _days(tree) if day[:4].isdecimal()}
    return sorted((year for year in years if year <= today.year), reverse=True)


def bags_of(office: Office) -> Iterator[Bag]:
    """The products of an office as a shopping list takes them."""
    for product, on_hand in usable(kept(Product, office)):
        yield Bag(
            name=product.name,
            material=on_hand.material.key,
            pack_g=on_hand.pack_g,
            price=on_hand.price,
            currency=on_hand.currency,
        )


def where_of(garden: Garden, by: str) -> str:
    """What names a garden beside the name of a bed: its client, or its own name."""
    return garden.client.name if by == "client" else garden.name


def _of(
    bed: Bed,
    sent: Any,
    shelf: tuple[Entry, ...],
    pairs: tuple[ScoredPair, ...],
    year: int,
    today: date,
    until: date,
    where: str,
) -> BedYear:
    letter = None if sent is None else _LETTERS.get(sent, partial(_letter, sent))
    case = case_with_shelf(bed.case_json, shelf, today=today)
    return bed_year(case, letter, year=year, until=until, pairs=pairs, where=where)


def _letter(pk: Any) -> Answer | None:
    """The answer in a letter; None where it is no longer understood."""
    text = SentLetter.objects.values_list("answer_text", flat=True).get(pk=pk)
    try:
        return answer_file_from_json(text).answer
    except InputError:
        return None


def _days(tree: dict[str, Any]) -> Iterator[str]:
    for name in ("reading", "applied"):
        for row in tree.get(name) or ():
            if isinstance(row, dict) and row.get("date"):
                yield str(row["date"])
    sampled = (tree.get("soil") or {}).get("sampled")
    if sampled:
        yield str(sampled)
