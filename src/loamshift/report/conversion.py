"""A conversion between pH methods as a page."""

from __future__ import annotations

from collections.abc import Mapping

from loamshift.domain.letter import Align, Column, Letter, Note, Paragraph, Section, Table
from loamshift.domain.ph_views import PhConversionView, PhView
from loamshift.report.sources import source_numbers, sources_section
from loamshift.report.words import Words


def ph_letter(view: PhConversionView, *, words: Words) -> Letter:
    """One reading by every conversion [object] in this reader's words [object] as a letter."""
    first = view.views[0]
    lead = (
        f"pH {view.ph:.1f} ({view.from_method.value}) reads about **{first.ph:.1f}** by "
        f"{view.to_method.value}, likely between {first.ph - 1.645 * first.ph_sd:.1f} and "
        f"{first.ph + 1.645 * first.ph_sd:.1f}."
    )
    keys = [key for row in view.views for key in row.source_keys]
    numbers = source_numbers(keys)
    table = Table(
        (
            Column("pH", Align.RIGHT),
            Column("sd", Align.RIGHT),
            Column("equation"),
            Column("used"),
            Column("evidence"),
            Column("source"),
            Column("note"),
        ),
        tuple(_row(row, words, numbers) for row in view.views),
    )
    blocks: list[Paragraph | Note] = [Paragraph(lead)]
    if not first.in_range:
        blocks.append(
            Note(
                "The reading lies outside what this conversion was made from; have the soil read "
                "again by the method you need.",
                "Outside",
            )
        )
    return Letter(
        "pH by another method",
        "",
        (
            Section(None, tuple(blocks)),
            Section("Every conversion listed", (table,)),
            sources_section(keys),
        ),
    )


def _row(view: PhView, words: Words, numbers: Mapping[str, str]) -> tuple[str, ...]:
    remarks = []
    if view.turned_round:
        remarks.append("equation turned round")
    if not view.in_range:
        remarks.append("outside its range")
    if view.note:
        remarks.append(words.text(view.note))
    return (
        f"{view.ph:.2f}",
        f"{view.ph_sd:.2f}",
        view.route,
        "default" if view.default else "",
        view.evidence.value,
        ", ".join(numbers[key] for key in view.source_keys),
        "; ".join(remarks),
    )
