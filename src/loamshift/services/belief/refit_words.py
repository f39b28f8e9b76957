"""What readings taught about a bed, as messages."""

from __future__ import annotations

from dataclasses import dataclass

from loamshift.domain.message import Measure, Message, Prose, Quantity, message, prose, times
from loamshift.services.belief.expected import ExpectedReading
from loamshift.services.context.reading_words import taken_as_told
from loamshift.services.context.readings import SeasonReading


@dataclass(frozen=True, slots=True, kw_only=True)
class Learned:
    """What the readings taught: ``times`` the soil's usual resistance [-], ``sd_left_frac`` of
    the spread that is left [0-1], what is to be doubted, and the latest test beside what was
    ``expected`` of it on its day.
    """

    times: float
    sd_left_frac: float
    news: bool
    pressed_low: bool
    pressed_high: bool
    fits_no_bed: bool
    lime_open: bool
    doubted: tuple[SeasonReading, ...]
    only_rough: bool
    expected: ExpectedReading


def refit_words(learned: Learned) -> tuple[Prose, tuple[Message, ...]]:
    """What the latest test shows and what was learned, and a message for each doubted reading."""
    doubted = tuple(
        message(
            "refit-doubted",
            day=season.day,
            reading=taken_as_told(
                season.ph_water, method=season.leading.method, readings=season.readings
            ),
        )
        for season in learned.doubted
    )
    expected = learned.expected.words
    if doubted:
        told = "refit-fits-no-bed" if learned.fits_no_bed else "refit-latest-unfit"
        return prose(expected, message(told)), doubted
    if not learned.news:
        return prose(expected, message("refit-no-news")), doubted
    pressed = "low" if learned.pressed_low else "high" if learned.pressed_high else None
    return (
        prose(
            expected,
            _resists(learned),
            message("refit-pressed", end=pressed) if pressed else None,
            message("refit-lime-open") if learned.lime_open and learned.times > 1.2 else None,
            message("refit-only-rough") if learned.only_rough else None,
        ),
        doubted,
    )


def _resists(learned: Learned) -> Message:
    if 0.91 < learned.times < 1.1:
        return message("refit-resists-alike")
    if learned.times >= 1.1:
        return message("refit-resists-more", times=times(learned.times))
    return message("refit-resists-less", share=Measure(Quantity.SHARE, learned.times))
