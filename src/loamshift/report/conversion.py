"""A conversion between pH methods as a page."""

from __future__ import annotations

from collections.abc import Mapping
from statistics import NormalDist
from typing import Final

from loamshift.domain.letter import Align, Column, Letter, Note, Paragraph, Section, Table
from loamshift.domain.message import Given, message, ph
from loamshift.domain.ph_views import PhConversionView, PhView
from loamshift.report.messages import say
from loamshift.report.sources import source_numbers, sources_section
from loamshift.report.words import Words

_NINETY_IN_100_SD: Final = NormalDist().inv_cdf(0.95)


def ph_letter(view: PhConversionView, *, words: Words) -> Letter:
    """One reading by every conversion in this reader's words as a letter."""
    first = view.views[0]
    half = _NINETY_IN_100_SD * first.ph_sd
    lead = message(
        "catalogue-ph-reads",
        ph=ph(view.ph),
        best=ph(first.ph),
        range=ph(first.ph - half, high=first.ph + half),
        **{"from": Given(view.from_method.value), "to": Given(view.to_method.value)},
    )
    keys = [key for row in view.views for key in row.source_keys]
    numbers = source_numbers(keys)
    titles = ("ph", "ph-sd", "ph-equation", "ph-used", "evidence", "source", "note")
    columns = tuple(
        Column(
            say(message(f"catalogue-{title}"), words),
            Align.RIGHT if title in ("ph", "ph-sd") else Align.LEFT,
        )
        for title in titles
    )
    blocks: list[Paragraph | Note] = [Paragraph(say(lead, words))]
    if not first.in_range:
        label = say(message("catalogue-ph-outside-label"), words)
        blocks.append(Note(say(message("catalogue-ph-outside"), words), label))
    table = Table(columns, tuple(_row(row, words, numbers) for row in view.views))
    return Letter(
        say(message("catalogue-ph-title"), words),
        "",
        (
            Section(None, tuple(blocks)),
            Section(say(message("catalogue-ph-every"), words), (table,)),
            sources_section(keys, heading=say(message("catalogue-sources-heading"), words)),
        ),
    )


def _row(view: PhView, words: Words, numbers: Mapping[str, str]) -> tuple[str, ...]:
    remarks = []
    if view.turned_round:
        remarks.append(say(message("catalogue-ph-turned"), words))
    if not view.in_range:
        remarks.append(say(message("catalogue-ph-out-of-range"), words))
    if view.note:
        remarks.append(words.text(say(view.note, words)))
    return (
        f"{view.ph:.2f}",
        f"{view.ph_sd:.2f}",
        view.route,
        say(message("catalogue-ph-default"), words) if view.default else "",
        view.evidence.value,
        ", ".join(numbers[key] for key in view.source_keys),
        "; ".join(remarks),
    )
