"""Following one published table on request, with what it leaves out said beside it."""

from __future__ import annotations

from dataclasses import replace

from loamshift.domain.answer import Answer, Direction, PublishedSpread, Verdict
from loamshift.domain.case import Case
from loamshift.domain.message import (
    Given,
    Measure,
    Message,
    Prose,
    Quantity,
    message,
    prose,
    rate,
    times,
)
from loamshift.domain.worded_error import WordedError
from loamshift.services.advise import advise
from loamshift.services.context.build_context import build_context
from loamshift.services.courses.seasons import seasons_ahead
from loamshift.services.plan.plan import dated_parts
from loamshift.services.plan.published import printed_rows, table_rate_g_m2, table_sources
from loamshift.tables.references import load_references

SAME_FROM, SAME_TO = 0.87, 1.15
"""A table is about the same as our own best estimate between these shares of it [1]."""


def plan_by_table(case: Case, source_key: str) -> Answer:
    """The answer to a case, with the dose of one published table in place of ours.

    Answers what somebody who goes by that table would do; verdict, findings and cautions stay
    ours, and the difference is said.

    Raises
    ------
    WordedError
        Where the table is unknown or does not cover the case, or the bed needs no dose.
    """
    answer = advise(case)
    context = build_context(case)
    direction = answer.dose.direction
    if direction is Direction.NONE:
        for way in (Direction.ACIDIFY, Direction.LIME):
            if source_key.strip().casefold() in table_sources(direction=way):
                raise WordedError(message("table-no-dose", decision=answer.verdict.decision.value))
        direction = Direction.ACIDIFY
    table_g_m2 = table_rate_g_m2(context, source_key, direction=direction)
    ours = answer.dose.sulfur_as_s_g_m2 or answer.dose.lime_as_caco3_g_m2
    acidify = direction is Direction.ACIDIFY
    seasons = seasons_ahead(context, acidify=acidify)
    parts = (
        ()
        if answer.plan is None
        else dated_parts(context, seasons, table_g_m2 / seasons.active_frac)
    )
    return replace(
        answer,
        verdict=_told(
            answer,
            source_key,
            rate_g_m2=table_g_m2,
            own=ours.mid if ours else None,
            parts=bool(parts),
        ),
        dose=replace(
            answer.dose,
            published_g_m2=PublishedSpread(n_sources=1, low=table_g_m2, high=table_g_m2),
        ),
        plan=None,
        applications=parts,
    )


def _told(
    answer: Answer,
    source_key: str,
    *,
    rate_g_m2: float,
    own: float | None,
    parts: bool,
) -> Verdict:
    wanted = source_key.strip().casefold()
    reference = load_references().get(wanted)
    cited = reference.citation if reference else source_key
    direction = answer.dose.direction
    recalled = any(row.recalled for row in printed_rows(direction) if row.source_key == wanted)
    said = [
        message(
            "verdict-table",
            source=Given(cited.rstrip(".")),
            recalled="yes" if recalled else "no",
        ),
        message("verdict-table-rate", rate=rate(rate_g_m2), direction=direction.value),
    ]
    if own is not None and own > 0.0:
        ratio = rate_g_m2 / own
        beside = "more" if ratio > SAME_TO else "less" if ratio < SAME_FROM else "same"
        said.append(
            message(
                "verdict-table-ours",
                beside=beside,
                times=times(ratio),
                share=Measure(Quantity.SHARE, ratio),
                own=rate(own),
            )
        )
    said.append(message("verdict-table-limits"))
    if not parts:
        said.append(message("verdict-table-nothing"))
    because = answer.verdict.because
    before = because if isinstance(because, Prose) else prose(_as_message(because))
    return replace(answer.verdict, because=before + Prose(tuple(said)))


def _as_message(worded: Message | str) -> Message:
    return worded if isinstance(worded, Message) else message("verbatim", text=Given(worded))
