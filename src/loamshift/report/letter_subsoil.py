"""What lies below the sample: what it means for roots, and how far a plan reaches."""

from __future__ import annotations

from collections.abc import Mapping

from loamshift.domain.answer import Answer, Direction, RootsBelow, Subsoil, Wanted
from loamshift.domain.letter import Align, Block, Column, Items, Paragraph, Section, Table
from loamshift.domain.message import Message, depth, message, percent, ph, plants
from loamshift.domain.subsoil import SubsoilDepth, SubsoilLayer
from loamshift.report.letter_checks import cited
from loamshift.report.messages import say
from loamshift.report.words import Words

_TRACE_PCT = 0.05
"""Less free lime than this is not told [% CaCO3]."""
_UNSUITED = frozenset(RootsBelow) - {RootsBelow.SUITS}


def what_lies_below(answer: Answer, *, numbers: Mapping[str, str], words: Words) -> Section | None:
    """The layers below the sample; None where the case tells of none.

    Parameters
    ----------
    numbers
        Numbers of the sources by their keys.
    """
    found = answer.subsoil
    if found is None:
        return None
    blocks: list[Block] = [
        Items(tuple(_layer(layer, answer.wanted, numbers, words) for layer in found.layers))
    ]
    if found.on is not None:
        told = _reach(answer, found)
        blocks.append(Paragraph(" ".join(say(one, words) for one in told)))
        blocks.append(_table(found, words))
    return Section(say(message("subsoil-title"), words), tuple(blocks))


def _layer(
    layer: SubsoilLayer, wanted: Wanted | None, numbers: Mapping[str, str], words: Words
) -> str:
    lime = float(f"{layer.carbonate_pct:.2g}")  # an estimate has no more digits
    text = message(
        "subsoil-layer",
        depth=depth(layer.top_cm, high=layer.bottom_cm),
        ph=ph(layer.ph_water),
        lime=percent(lime) if lime >= _TRACE_PCT else None,
    )
    if layer.roots is None or wanted is None:
        return say(text, words)
    roots = message(
        f"subsoil-roots-{layer.roots}",
        plants=plants(wanted.names) if wanted.names else None,
        range=ph(wanted.ph_low, high=wanted.ph_high),
        limit=None if layer.limit_ph is None else ph(layer.limit_ph),
    )
    source = cited("wa-soil-acidity", numbers) if layer.roots is RootsBelow.ALUMINIUM else ""
    return f"{say(text, words)} {say(roots, words)}{source}"


def _reach(answer: Answer, found: Subsoil) -> list[Message]:
    """How far down the plan shows, and what that leaves to do."""
    if not found.treated:
        return [message("subsoil-untreated", day=found.on)]
    reached, deepest = found.reached_cm, max(one.bottom_cm for one in found.depths)
    reach = "none" if reached == 0.0 else "all" if reached >= deepest else "part"
    told = [
        message(
            "subsoil-reach",
            reach=reach,
            day=found.on,
            depth=None if reach == "none" else depth(reached),
        )
    ]
    out = [one for one in found.layers if one.roots in _UNSUITED and not found.is_reached(one)]
    if out and answer.dose.direction is not Direction.NONE:
        acid = answer.dose.direction is Direction.LIME
        told.append(
            message(
                "subsoil-out-of-reach", way="lime" if acid else "acid", depth=depth(out[0].top_cm)
            )
        )
    return told


def _table(found: Subsoil, words: Words) -> Table:
    heads = ["depth", "today", "untreated", *(("planned", "shows") if found.treated else ())]
    columns = tuple(
        Column(
            say(message(f"subsoil-head-{name}", day=found.on), words),
            Align.LEFT if name == "depth" else Align.RIGHT,
        )
        for name in heads
    )
    rows = tuple(_row(one, treated=found.treated, words=words) for one in found.depths)
    return Table(columns, rows, say(message("subsoil-caption"), words))


def _row(one: SubsoilDepth, *, treated: bool, words: Words) -> tuple[str, ...]:
    cells = [words.measure(depth(one.top_cm, high=one.bottom_cm))]
    shown = [one.ph_today, one.ph_untreated, *((one.ph_planned,) if treated else ())]
    cells += [words.measure(ph(value)) for value in shown]
    if treated:
        never = say(message("subsoil-not-yet"), words)
        cells.append(never if one.shows_from is None else words.date(one.shows_from))
    return tuple(cells)
