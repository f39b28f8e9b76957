"""Following one printed table on request, with what it leaves out said beside it."""

from __future__ import annotations

from dataclasses import replace

from loamshift.domain.answer import Answer, Direction, PublishedSpread, Verdict
from loamshift.domain.case import Case
from loamshift.errors import InputError
from loamshift.services.advise import advise
from loamshift.services.context.build_context import build_context
from loamshift.services.courses.seasons import seasons_ahead
from loamshift.services.format import format_rate, format_times
from loamshift.services.plan.plan import dated_parts
from loamshift.services.plan.published import printed_rows, table_rate_g_m2, table_sources
from loamshift.tables.references import load_references


def plan_by_table(case: Case, source_key: str) -> Answer:
    """The answer to a case, with the dose of one printed table in place of ours.

    Answers what somebody who goes by that table would do; verdict, findings and cautions stay
    ours, and the difference is said.

    Parameters
    ----------
    case
        The case as read [object].
    source_key
        Source of the table [text].

    Returns
    -------
    Answer
        The answer with the table's rate in its parts [object].

    Raises
    ------
    InputError
        Where the table is unknown or does not cover the case, or the bed needs no dose.
    """
    answer = advise(case)
    context = build_context(case)
    direction = answer.dose.direction
    if direction is Direction.NONE:
        for way in (Direction.ACIDIFY, Direction.LIME):
            if source_key.strip().casefold() in table_sources(direction=way):
                raise InputError(
                    f"this bed is given no dose ({answer.verdict.decision.value}), so there is "
                    f"no table to follow; read the answer without --table"
                )
        direction = Direction.ACIDIFY
    rate = table_rate_g_m2(context, source_key, direction=direction)
    ours = answer.dose.sulfur_as_s_g_m2 or answer.dose.lime_as_caco3_g_m2
    acidify = direction is Direction.ACIDIFY
    seasons = seasons_ahead(context, acidify=acidify)
    parts = () if answer.plan is None else dated_parts(context, seasons, rate / seasons.active_frac)
    return replace(
        answer,
        verdict=_told(
            answer,
            case,
            source_key,
            rate_g_m2=rate,
            own=ours.mid if ours else None,
            parts=bool(parts),
        ),
        dose=replace(answer.dose, published_g_m2=PublishedSpread(n_sources=1, low=rate, high=rate)),
        plan=None,
        applications=parts,
    )


def _told(
    answer: Answer,
    case: Case,
    source_key: str,
    *,
    rate_g_m2: float,
    own: float | None,
    parts: bool,
) -> Verdict:
    reference = load_references().get(source_key.strip().casefold())
    cited = reference.citation if reference else source_key
    recalled = any(
        row.recalled
        for row in printed_rows(answer.dose.direction)
        if row.source_key == source_key.strip().casefold()
    )
    units = case.units
    what = "sulfur" if answer.dose.direction is Direction.ACIDIFY else "limestone"
    table = f"You asked to follow one printed table ({cited.rstrip('.')})"
    if recalled:
        table += ", whose figures were recalled and not read"
    text = f"{table}: it gives {format_rate(rate_g_m2, units)} of {what} for this soil and step."
    if own is not None and own > 0.0:
        ratio = rate_g_m2 / own
        if 0.87 <= ratio <= 1.15:
            text += f" Our own figure is about the same, {format_rate(own, units)}."
        else:
            way = format_times(ratio) if ratio > 1.0 else f"{100.0 * ratio:.0f} % of"
            text += f" That is {way} our own figure of {format_rate(own, units)}."
    text += " Printed tables know nothing of free lime, water or how much goes on at once."
    if not parts:
        text += " No parts are given for it, for the reason above."
    return replace(answer.verdict, because=f"{answer.verdict.because} {text}")
