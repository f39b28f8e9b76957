"""The sampling plan as a page to take out to the bed."""

from __future__ import annotations

from collections.abc import Iterable

from loamshift.domain.letter import Align, Column, Items, Letter, Paragraph, Section, Table
from loamshift.domain.message import Message, Worded, depth, message, ph, ph_mean
from loamshift.domain.sampling import SamplePlan
from loamshift.report.messages import say
from loamshift.report.sources import sources_section
from loamshift.report.words import Words


def sampling_letter(plan: SamplePlan, *, words: Words) -> Letter:
    """A sampling plan in this reader's words as a letter."""
    return Letter(
        title=say(message("sample-title"), words),
        subtitle="",
        sections=(
            Section(
                None,
                (
                    Paragraph(f"**{say(sample_lead(plan), words)}**"),
                    Paragraph(say(sample_error(plan), words)),
                ),
            ),
            _section("where", plan.where, words),
            _section("how", plan.how, words, numbered=True),
            _section("ask", plan.ask, words),
            _section("when", plan.when, words),
            _why(plan, words),
            sources_section(plan.source_keys, heading=say(message("colophon-sources"), words)),
        ),
    )


def sample_lead(plan: SamplePlan) -> Message:
    """How many cores of a plan, how deep, mixed into how many samples."""
    return message(
        "sample-lead", cores=plan.cores, depth=depth(plan.depth_cm), samples=plan.samples
    )


def sample_error(plan: SamplePlan) -> Message:
    """How near the mixed sample of a plan comes to the whole bed."""
    return message("sample-error", error=ph(plan.error_ph))


def _why(plan: SamplePlan, words: Words) -> Section:
    """Why so many cores, and what fewer or more of them would be worth."""
    told = _section("why", plan.why, words)
    columns = tuple(
        Column(say(message(f"sample-column-{name}"), words), Align.RIGHT)
        for name in ("cores", "error", "saves")
    )
    rows = tuple(
        (
            f"**{line.cores}**" if line.cores == plan.cores else str(line.cores),
            f"±{words.measure(ph_mean(line.error_ph))}",
            words.measure(ph_mean(line.one_more_saves_ph)),
        )
        for line in plan.by_cores
    )
    return Section(told.heading, (*told.blocks, Table(columns, rows)))


def _section(
    heading: str, lines: Iterable[Worded], words: Words, *, numbered: bool = False
) -> Section:
    items = Items(tuple(say(line, words) for line in lines), numbered)
    return Section(say(message(f"sample-heading-{heading}"), words), (items,))
