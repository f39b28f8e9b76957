"""How good some forecasts were, as a letter: one honest sentence, a picture, every pair."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import Final

from loamshift.domain.letter import (
    Align,
    Block,
    Column,
    Items,
    Letter,
    Matter,
    Paragraph,
    Section,
    Table,
)
from loamshift.domain.message import Given, Message, message, ph
from loamshift.domain.score import LeftOut, ScoredPair, ScoreSummary, Shown
from loamshift.report.figures.calibration import calibration_figure
from loamshift.report.messages import say
from loamshift.report.words import Words

MOST_ROWS: Final = 40
"""Pairs that the table lists; the file of pairs has all of them [count]."""
_SAME: Final = 0.005
"""Misses nearer than this are told as the same [pH]."""


def scores_letter(
    summary: ScoreSummary,
    pairs: Sequence[ScoredPair],
    *,
    under: Message,
    words: Words,
    drawn: bool = True,
) -> Letter:
    """What some pairs of forecast and reading show.

    Parameters
    ----------
    under
        Whose forecasts they are.
    drawn
        False for a reader who sees no pictures: the figures stand in a table.
    """
    opening: list[Block] = [Paragraph(say(shown_said(summary), words))]
    told = [say(one, words) for one in _told(summary)]
    if told:
        opening.append(Paragraph(" ".join(told)))
    left = tuple(say(one, words) for one in _left_out(summary))
    if left:
        opening.append(Items(left))
    sections = [Section(None, tuple(opening), Matter.OPENING)]
    figure = calibration_figure(summary, words=words)
    if figure is not None:
        heading = say(message("score-figure-heading"), words)
        sections.append(Section(heading, (figure if drawn else figure.table,)))
    if pairs:
        sections.append(_listed(pairs, words))
    how = ("newest", "error", "once", "planned", "miss", "stays")
    items = Items(tuple(say(message(f"score-how-{one}"), words) for one in how))
    sections.append(Section(say(message("score-how-heading"), words), (items,), Matter.ASIDE))
    title = say(message("score-title"), words)
    return Letter(title, say(under, words), tuple(sections))


def shown_said(summary: ScoreSummary) -> Message:
    """The one sentence that says what the pairs show, and whether they show anything."""
    if summary.share_90 is None or summary.shown is Shown.NOTHING:
        return message("score-nothing")
    low, high = summary.share_90
    return message(
        f"score-{summary.shown.value}",
        n=summary.count,
        inside=summary.inside_90,
        low=math.floor(100.0 * low),
        high=math.ceil(100.0 * high),
    )


def _told(summary: ScoreSummary) -> Iterator[Message]:
    if summary.skill is not None:
        assert summary.crps_compared is not None and summary.crps_stays is not None
        gap = summary.crps_stays - summary.crps_compared
        yield message(
            "score-skill",
            side="same" if abs(gap) < _SAME else "better" if gap > 0.0 else "worse",
            n=summary.compared,
            crps=Given(miss(summary.crps_compared)),
            stays=Given(miss(summary.crps_stays)),
            saved=round(100.0 * max(summary.skill, 0.0)),
        )
    if summary.mean_error is not None and summary.mean_off is not None:
        side = "high" if summary.mean_error > 0.0 else "low"
        yield message(
            "score-error",
            n=summary.count,
            side="none" if abs(summary.mean_error) < _SAME else side,
            error=Given(miss(abs(summary.mean_error))),
            off=Given(miss(summary.mean_off)),
        )
    if summary.count > 1:
        yield message("score-inside-50", inside=summary.inside_50, n=summary.count)
        yield message("score-beds", beds=summary.beds)
    if summary.hindcast:
        every = "no"
        if summary.hindcast == summary.count:
            every = "one" if summary.count == 1 else "yes"
        yield message("score-hindcast", all=every, n=summary.hindcast)


def _left_out(summary: ScoreSummary) -> Iterator[Message]:
    for why in LeftOut:
        count = getattr(summary, why.value)
        if count:
            yield message(f"score-left-out-{why.value}", n=count)


def _listed(pairs: Sequence[ScoredPair], words: Words) -> Section:
    latest = sorted(pairs, key=lambda pair: pair.read.on, reverse=True)
    heads = (
        ("bed", Align.LEFT),
        ("on", Align.LEFT),
        ("read", Align.RIGHT),
        ("range", Align.RIGHT),
        ("error", Align.RIGHT),
        ("from", Align.LEFT),
        ("outcome", Align.LEFT),
    )
    columns = tuple(
        Column(say(message(f"score-column-{head}"), words), align) for head, align in heads
    )
    rows = tuple(_row(pair, words) for pair in latest[:MOST_ROWS])
    caption = say(message("score-table-caption"), words)
    blocks: list[Block] = [Table(columns, rows, caption)]
    if len(latest) > MOST_ROWS:
        more = message("score-table-more", n=len(latest) - MOST_ROWS)
        blocks.append(Paragraph(say(more, words)))
    return Section(say(message("score-table-heading"), words), tuple(blocks))


def _row(pair: ScoredPair, words: Words) -> tuple[str, ...]:
    issued = message(
        "score-from",
        **{"as": pair.issued.issued_as.value, "day": pair.issued.on},
    )
    return (
        pair.bed,
        words.date(pair.read.on),
        words.measure(ph(pair.read.ph_water)),
        words.measure(ph(pair.low, high=pair.high)),
        signed(pair.error),
        say(issued, words),
        say(outcome_said(pair), words),
    )


def outcome_said(pair: ScoredPair) -> Message:
    """How a reading came out, or why it is not counted, in a few words."""
    outcome = "middle" if pair.is_inside_50 else "inside" if pair.is_inside_90 else "outside"
    if pair.left_out is not None:
        outcome = pair.left_out.value
    return message("score-outcome", outcome=outcome)


def miss(size_ph: float) -> str:
    """A difference of pH to two places.

    Parameters
    ----------
    size_ph
        The difference, 0 or more [pH].
    """
    return "0" if size_ph < _SAME else f"{size_ph:.2f}"


def signed(error_ph: float) -> str:
    """An error with its sign, to two places.

    Parameters
    ----------
    error_ph
        Reading less forecast [pH].
    """
    if abs(error_ph) < _SAME:
        return "0"
    return f"{'+' if error_ph > 0.0 else '−'}{miss(abs(error_ph))}"
