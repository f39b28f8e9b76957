"""The sampling plan as a page to take out to the bed."""

from __future__ import annotations

from loamshift.domain.letter import Items, Letter, Paragraph, Section
from loamshift.domain.sampling import SamplePlan
from loamshift.report.sources import sources_section
from loamshift.report.words import Words


def sampling_letter(plan: SamplePlan, *, words: Words) -> Letter:
    """A sampling plan [object] in this reader's words [object] as a letter [object]."""
    count = "one mixed sample" if plan.samples == 1 else f"{plan.samples} mixed samples"
    lead = (
        f"**{plan.cores} cores**, each **{words.depth(plan.depth_cm)}** deep, mixed into "
        f"{count}. The mean of the cores then lies within about ±{plan.error_ph:.1f} pH of the "
        "bed's."
    )
    return Letter(
        title="Taking the sample",
        subtitle="",
        sections=(
            Section(None, (Paragraph(words.text(lead)),)),
            Section("Where", (_items(plan.where, words),)),
            Section("How", (_items(filled(plan.how, plan, words), words, numbered=True),)),
            Section("What to have tested", (_items(plan.ask, words),)),
            Section("When", (_items(plan.when, words),)),
            Section("Why so many", (_items(plan.why, words),)),
            sources_section(plan.source_keys),
        ),
    )


def filled(lines: tuple[str, ...], plan: SamplePlan, words: Words) -> tuple[str, ...]:
    """Lines [text] of a plan [object] with its depths and volume in the reader's units [text]."""
    places = {
        "depth": words.depth(plan.depth_cm),
        "deeper": words.depth(plan.deeper_cm or plan.depth_cm),
        "volume": words.volume(plan.volume_l),
    }
    return tuple(line.format(**places) for line in lines)


def _items(lines: tuple[str, ...], words: Words, *, numbered: bool = False) -> Items:
    return Items(tuple(words.text(line) for line in lines), numbered)
