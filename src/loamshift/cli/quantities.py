"""Quantities on the command line, read by the same parsers as those of the case file."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

from loamshift.case.amounts import read_amount
from loamshift.case.mend import Mend
from loamshift.case.quantities import (
    Measure,
    read_area_m2,
    read_depth_cm,
    read_temperature_c,
)
from loamshift.case.water_quantities import (
    read_alkalinity_mg_l_as_caco3,
    read_hardness_mg_l_as_caco3,
    read_weekly_water,
)
from loamshift.cli.show import tell
from loamshift.domain.message import Given, Prose, message
from loamshift.domain.worded_error import WordedError

T = TypeVar("T")


def mended(read: Callable[[object], T], text: str, *, option: str) -> T:
    """What a parser of the case file makes of a text.

    Raises
    ------
    WordedError
        With the parser's own words about what is wrong and what is right.
    """
    try:
        return read(text)
    except Mend as fault:
        wrong = message("cli-quantity", option=Given(option), fault=fault.wrong)
        raise WordedError(Prose((wrong, *fault.right))) from fault


def _value(read: Callable[[object], Measure], text: str, option: str) -> float:
    measure = mended(read, text, option=option)
    for note in measure.notes:
        tell(message("cli-note", option=Given(option), note=note))
    return measure.value


def area_m2_from(text: str, *, option: str) -> float:
    """An area [m2] from a text such as “215 sq ft” of an option."""
    return _value(read_area_m2, text, option)


def depth_cm_from(text: str, *, option: str) -> float:
    """A depth [cm] from a text such as “6 in” of an option."""
    return _value(read_depth_cm, text, option)


def alkalinity_mg_l_from(text: str, *, option: str) -> float:
    """An alkalinity [mg/L CaCO3] from a text such as “220 mg/L HCO3” of an option."""
    return _value(read_alkalinity_mg_l_as_caco3, text, option)


def hardness_mg_l_from(text: str, *, option: str) -> float:
    """A hardness [mg/L CaCO3] from a text such as “15 dH” of an option."""
    return _value(read_hardness_mg_l_as_caco3, text, option)


def weekly_mm_from(text: str, *, option: str) -> float:
    """A weekly depth of water [mm] from a text such as “25 mm” of an option."""
    water = mended(read_weekly_water, text, option=option)
    if water.per != "area":
        asked = {"option": Given(option), "given": Given(text)}
        raise WordedError(message("cli-depth-needed", **asked))
    return water.value


def temp_c_from(text: str, *, option: str) -> float:
    """A temperature [degC] from a text such as “54 F” of an option."""
    return mended(read_temperature_c, text, option=option)


def volume_l_from(text: str, *, option: str) -> float:
    """A volume [L] from a text such as “1000 L” or “50 gal” of an option."""
    amount = mended(read_amount, text, option=option)
    if amount.kind != "volume" or amount.per != "bed":
        asked = {"option": Given(option), "given": Given(text)}
        raise WordedError(message("cli-volume-needed", **asked))
    for note in amount.notes:
        tell(message("cli-note", option=Given(option), note=note))
    return amount.value
