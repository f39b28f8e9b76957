"""What readings taught about a bed, in words."""

from __future__ import annotations

from dataclasses import dataclass

from loamshift.domain.case import Units
from loamshift.services.context.readings import SeasonReading
from loamshift.services.format import format_date


@dataclass(frozen=True, slots=True, kw_only=True)
class Learned:
    """What the readings taught: ``times`` the soil's usual resistance [-], ``sd_left_frac`` of
    the spread that is left [0-1], and what is to be doubted.
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


def refit_words(learned: Learned, *, units: Units) -> tuple[str, tuple[str, ...]]:
    """One or two sentences, and one for each reading that is doubted.

    Parameters
    ----------
    learned
        What was learned [object].
    units
        Units of the letter, for its dates [enumeration].

    Returns
    -------
    tuple
        The sentences, and those about doubted readings [text].
    """
    doubted = tuple(
        f"The test of {format_date(season.day, units)} (pH {season.ph_water:.1f} in water) fits "
        "no likely course of this bed. Repeat it before you trust it: a mixed-up or shallow "
        "sample is likelier than a strange soil."
        for season in learned.doubted
    )
    if learned.fits_no_bed and doubted:
        return (
            "The readings do not fit each other: no likely bed would give them all. A new sample "
            "comes before anything else.",
            doubted,
        )
    if doubted:
        return (
            "The latest readings do not fit what was put on; how strongly the soil resists cannot "
            "be learned from them yet.",
            doubted,
        )
    if not learned.news:
        return "The earlier readings say little about how strongly this soil resists.", doubted
    said = [_resists(learned)]
    if learned.pressed_low or learned.pressed_high:
        way = "less" if learned.pressed_low else "more"
        said.append(
            f"It may resist even {way} than we can represent, so check what was put on and when."
        )
    if learned.lime_open and learned.times > 1.2:
        said.append("Free lime could explain the same readings: a fizz test would tell.")
    if learned.only_rough:
        said.append("All the readings are rough ones, so this rests on little.")
    return " ".join(said), doubted


def _resists(learned: Learned) -> str:
    times = learned.times
    if 0.91 < times < 1.1:
        return "By its earlier readings this soil resists about as much as its texture suggests."
    if times >= 1.1:
        return (
            f"By its earlier readings this soil resists {times:.1f} times as much as its texture "
            "suggests."
        )
    return (
        f"By its earlier readings this soil resists less than its texture suggests, about "
        f"{round(100.0 * times)} parts in 100."
    )
