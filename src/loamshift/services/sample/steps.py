"""The steps of taking a sample, as messages: where, how, when, with what, and why so many cores."""

from __future__ import annotations

import math

from loamshift.domain.case import BedKind
from loamshift.domain.message import (
    Measure,
    Message,
    Prose,
    Quantity,
    depth,
    message,
    number,
    prose,
)


def where_to_walk(
    kind: BedKind, *, cores: int, pots: int, uneven: bool, samples: int
) -> tuple[Prose, ...]:
    """Where the cores are taken, and where not.

    Parameters
    ----------
    cores, pots, samples
        Cores, containers alike, and mixed samples [counts].
    uneven
        True where the ground differs from place to place.

    Returns
    -------
    tuple of Prose
        In the order they are done, the first sentence of each being the short one.
    """
    if kind is BedKind.CONTAINER:
        return (
            prose(_in_pots(cores=cores, pots=pots)),
            prose(message("sample-where-whole-pot"), message("sample-where-crust")),
        )
    lines = [
        prose(message("sample-where-spots", cores=cores), message("sample-where-zigzag")),
        prose(message("sample-where-away"), message("sample-where-away-too")),
    ]
    if kind is BedKind.LAWN:
        lines.append(prose(message("sample-where-lawn")))
    if kind is BedKind.FIELD:
        lines.append(prose(message("sample-where-field")))
    if uneven:
        lines.append(prose(message("sample-where-apart"), message("sample-where-apart-why")))
    if samples > 1:
        lines.append(prose(message("sample-where-samples", samples=samples)))
    return tuple(lines)


def _in_pots(*, cores: int, pots: int) -> Message:
    if pots >= cores:
        return message("sample-where-each-pot", cores=cores)
    return message("sample-where-pots", pots=pots, each=math.ceil(cores / pots))


def how_to_take(
    kind: BedKind, *, depth_cm: float, deeper_cm: float | None, volume_l: float
) -> tuple[Prose, ...]:
    """How a core is taken, mixed, dried and sent.

    Parameters
    ----------
    depth_cm
        How deep each core goes [cm].
    deeper_cm
        Where a second sample under trees and shrubs ends, None without one [cm].
    volume_l
        Mixed soil to send [L].
    """
    lines = []
    if kind is not BedKind.CONTAINER:
        lines.append(prose(message("sample-how-scrape")))
        lines.append(
            prose(
                message("sample-how-core", depth=depth(depth_cm)),
                message("sample-how-slice"),
                message("sample-how-half"),
            )
        )
    if deeper_cm is not None:
        lines.append(
            prose(
                message("sample-how-deeper", depth=depth(depth_cm), deeper=depth(deeper_cm)),
                message("sample-how-deeper-why"),
            )
        )
    return (
        *lines,
        prose(message("sample-how-crumble"), message("sample-how-bucket")),
        prose(
            message("sample-how-send", volume=Measure(Quantity.VOLUME, volume_l)),
            message("sample-how-dry"),
        ),
        prose(message("sample-how-write")),
    )


def when_to_sample(wait_weeks: float) -> tuple[Prose, ...]:
    """When a sample tells most.

    Parameters
    ----------
    wait_weeks
        How long to wait after something was applied [weeks].
    """
    wait = Measure(Quantity.WEEKS, wait_weeks)
    return (
        prose(message("sample-when-moist"), message("sample-when-rain")),
        prose(message("sample-when-wait", wait=wait), message("sample-when-wait-why")),
        prose(message("sample-when-again"), message("sample-when-again-why")),
    )


def why_so_many(
    *,
    uneven: bool,
    sd_ph: float,
    left_ph: float,
    error_ph: float,
    cores: int,
    wanted: int,
    fewest: int,
) -> tuple[Prose, ...]:
    """Why so many cores and not more or fewer.

    Parameters
    ----------
    uneven
        True where the ground differs from place to place.
    sd_ph, left_ph, error_ph
        Spread of single cores, error that is left, and error that was wanted [pH].
    cores, wanted, fewest
        Cores taken, cores for the wanted error, and the fewest that sources ask for [cores].
    """
    lines = [
        prose(
            message(
                "sample-why-spread", looks="uneven" if uneven else "even", sd=_hundredths(sd_ph)
            ),
            message("sample-why-mixed", cores=cores, left=_hundredths(left_ph)),
        ),
        prose(message("sample-why-laboratory"), message("sample-why-laboratory-stays")),
    ]
    if wanted > cores:
        lines.append(
            prose(
                message("sample-why-more", error=_hundredths(error_ph), wanted=wanted),
                message("sample-why-divide"),
            )
        )
    elif wanted < cores:
        lines.append(
            prose(
                message(
                    "sample-why-fewest",
                    error=_hundredths(error_ph),
                    wanted=wanted,
                    fewest=fewest,
                )
            )
        )
    return tuple(lines)


def what_to_take(kind: BedKind, *, depth_cm: float) -> tuple[Message, ...]:
    """Tools for taking a sample.

    Parameters
    ----------
    depth_cm
        The depth that the corer is marked at [cm].
    """
    pot = kind is BedKind.CONTAINER
    corer = (
        message("sample-tool-corer-pot")
        if pot
        else message("sample-tool-corer", depth=depth(depth_cm))
    )
    return (
        corer,
        message("sample-tool-bucket"),
        message("sample-tool-paper"),
        message("sample-tool-bag"),
    )


def what_to_ask(kind: BedKind) -> tuple[Message, ...]:
    """What to have a laboratory find and print."""
    always = (message("sample-ask-ph"), message("sample-ask-lime"))
    if kind is BedKind.CONTAINER:
        return (*always, message("sample-ask-salt"))
    return (*always, message("sample-ask-texture"), message("sample-ask-organic"))


def _hundredths(difference_ph: float) -> Measure:
    """A difference of pH in two places: the arithmetic of cores is finer than a reading."""
    return number(round(difference_ph, 2))
