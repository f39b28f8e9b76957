"""What is to be said, before anybody words it: the key of a message and its typed figures.

Services return these; ``loamshift.report.messages`` words them for one reader. A figure stays a
number with its kind until then, so that it never passes through a rounded text.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date
from enum import StrEnum
from types import MappingProxyType
from typing import Final, TypeAlias

KEY: Final = re.compile(r"[a-z][a-z0-9]*(?:-[a-z0-9]+)*")
"""How keys of messages and choices are written."""
_NOTHING: Final[Mapping[str, Value]] = MappingProxyType({})


class Quantity(StrEnum):
    """What kind of number is being said; its unit stands in the member's comment."""

    RATE = "rate"  # g/m2
    AMOUNT = "amount"  # g
    AREA = "area"  # m2
    DEPTH = "depth"  # cm
    LENGTH = "length"  # m
    WATER_DEPTH = "water depth"  # mm
    WATER_RATE = "water rate"  # L/m2
    VOLUME = "volume"  # L
    TEMPERATURE = "temperature"  # degC
    PH = "ph"  # pH
    PH_MEAN = "ph mean"  # pH, in hundredths: a mean of several pots, or a difference of two
    ACID = "acid"  # mmolc/kg
    ACID_AREA = "acid area"  # mmolc/m2
    EC = "ec"  # dS/m
    ALKALINITY = "alkalinity"  # mg/L CaCO3
    ACID_WATER = "acid in water"  # mmolc/L
    IN_WATER = "in water"  # mg/L of a nutrient
    ML = "millilitres"  # mL, in every country: measuring cylinders have them
    GRAMS = "grams"  # g, in every country: balances have them
    SHARE = "share"  # 0-1, said in per cent
    PERCENT = "percent"  # per cent, as somebody stated it
    IN_100 = "in 100"  # 0-1, said as a count of a hundred: about 28
    TIMES = "times"  # 1, how many times one thing is another
    NUMBER = "number"  # 1, as somebody stated it
    WEEKS = "weeks"  # weeks
    YEARS = "years"  # years


@dataclass(frozen=True, slots=True)
class Measure:
    """A number of one kind, or a range up to ``high`` [unit of the kind].

    ``against`` is a number that the same message compares it with: both are said with digits
    enough that the comparison stays true. ``best`` is the best figure of the range, said elsewhere
    in the letter: the range takes its unit.
    """

    kind: Quantity
    value: float
    high: float | None = None
    against: float | None = None
    best: float | None = None


@dataclass(frozen=True, slots=True)
class Given:
    """A text as a person gave it, or as a table carries it: a bed, a place, a laboratory."""

    text: str


@dataclass(frozen=True, slots=True)
class PlantName:
    """A plant by the name in the table or in the case file."""

    name: str


@dataclass(frozen=True, slots=True)
class Product:
    """A material by its key, said as in a sentence: ``sulphur powder``."""

    key: str


@dataclass(frozen=True, slots=True)
class ProductName:
    """A material by its key, said as a list of materials names it, and as it can be typed."""

    key: str


@dataclass(frozen=True, slots=True)
class Listed:
    """Several values said one after the other, the last behind ``and`` or ``or``."""

    items: tuple[Value, ...]
    either: bool = False


@dataclass(frozen=True, slots=True)
class Message:
    """A message by its key, with the values that stand in it by their names.

    A plain text among the values is a choice between wordings, such as ``lime``; it is never
    printed.
    """

    key: str
    values: Mapping[str, Value] = field(default_factory=lambda: _NOTHING, hash=False)

    def __post_init__(self) -> None:
        """Refuse a key that is none, and prose where a choice belongs."""
        if not KEY.fullmatch(self.key):
            raise ValueError(f"{self.key!r} is no key of a message")
        for name, value in self.values.items():
            if isinstance(value, str) and not KEY.fullmatch(value):
                raise ValueError(f"{name} of {self.key} is {value!r}, which is no choice")


Value: TypeAlias = (
    Measure | Given | PlantName | Product | ProductName | Listed | Message | date | int | str | None
)
"""What can stand in a message: whole numbers are counts, texts are choices, None an open end."""


@dataclass(frozen=True, slots=True)
class Prose:
    """Whole sentences in reading order."""

    sentences: tuple[Message, ...] = ()

    def __bool__(self) -> bool:
        """Whether there is anything to say."""
        return bool(self.sentences)

    def __add__(self, other: Prose) -> Prose:
        """The sentences of the one, then those of the other."""
        return Prose((*self.sentences, *other.sentences))


Worded: TypeAlias = Prose | Message | str
"""What an answer says of something; a plain text is one kept by an earlier version."""


def message(key: str, /, **values: Value) -> Message:
    """A message with its values by name.

    Examples
    --------
    >>> message("verdict-reads", ph=ph(6.5)).values["ph"].value
    6.5
    """
    return Message(key, MappingProxyType(dict(values)))


def prose(*parts: Message | Prose | None) -> Prose:
    """Sentences after one another.

    Parameters
    ----------
    parts
        Messages that are whole sentences, or several; None is passed over.
    """
    sentences: list[Message] = []
    for part in parts:
        if isinstance(part, Prose):
            sentences.extend(part.sentences)
        elif part is not None:
            sentences.append(part)
    return Prose(tuple(sentences))


def rate(
    rate_g_m2: float,
    *,
    high: float | None = None,
    against: float | None = None,
    best: float | None = None,
) -> Measure:
    """A rate, or a range of rates.

    Parameters
    ----------
    rate_g_m2
        The number, or the lower end of a range [g/m2].
    high
        Upper end where it is a range [g/m2].
    against
        What the same message compares it with [g/m2].
    best
        Best figure of the range, whose unit it takes [g/m2].
    """
    return Measure(Quantity.RATE, rate_g_m2, high, against, best)


def amount(
    amount_g: float,
    *,
    high: float | None = None,
    against: float | None = None,
    best: float | None = None,
) -> Measure:
    """A weight for the whole bed, or a range.

    Parameters
    ----------
    amount_g
        The number, or the lower end of a range [g].
    high
        Upper end where it is a range [g].
    against
        What the same message compares it with [g].
    best
        Best figure of the range, whose unit it takes [g].
    """
    return Measure(Quantity.AMOUNT, amount_g, high, against, best)


def ph(ph_water: float, *, high: float | None = None, against: float | None = None) -> Measure:
    """A pH, a range, or a difference of two.

    Parameters
    ----------
    ph_water
        The number, or the lower end of a range [pH].
    high
        Upper end where it is a range [pH].
    against
        What the same message compares it with [pH].
    """
    return Measure(Quantity.PH, ph_water, high, against)


def ph_mean(ph_water: float, *, high: float | None = None) -> Measure:
    """A mean pH of several pots, a difference of two means, or a range of either.

    Parameters
    ----------
    ph_water
        The number, or the lower end of a range [pH].
    high
        Upper end where it is a range [pH].
    """
    return Measure(Quantity.PH_MEAN, ph_water, high)


def depth(depth_cm: float, *, high: float | None = None) -> Measure:
    """A depth of soil.

    Parameters
    ----------
    depth_cm
        The number, or the lower end of a range [cm].
    high
        Upper end where it is a range [cm].
    """
    return Measure(Quantity.DEPTH, depth_cm, high)


def in_100(share: float) -> Measure:
    """A share of beds, tests or chances, said as ``about 28`` or ``fewer than 1``.

    Parameters
    ----------
    share
        The number, or the lower end of a range [0-1].
    """
    return Measure(Quantity.IN_100, share)


def percent(value_pct: float, *, high: float | None = None) -> Measure:
    """A percentage as somebody stated it.

    Parameters
    ----------
    value_pct
        The number, or the lower end of a range [%].
    high
        Upper end where it is a range [%].
    """
    return Measure(Quantity.PERCENT, value_pct, high)


def times(ratio: float) -> Measure:
    """How many times one amount is another.

    Parameters
    ----------
    ratio
        The number, or the lower end of a range [1].
    """
    return Measure(Quantity.TIMES, ratio)


def number(value: float, *, high: float | None = None) -> Measure:
    """A plain number as somebody stated it.

    Parameters
    ----------
    value
        The number, or the lower end of a range [1].
    high
        Upper end where it is a range [1].
    """
    return Measure(Quantity.NUMBER, value, high)


def salt(ec_ds_m: float, *, high: float | None = None, against: float | None = None) -> Measure:
    """An electrical conductivity.

    Parameters
    ----------
    ec_ds_m
        The number, or the lower end of a range [dS/m].
    high
        Upper end where it is a range [dS/m].
    against
        What the same message compares it with [dS/m].
    """
    return Measure(Quantity.EC, ec_ds_m, high, against)


def alkalinity(alkalinity_mg_l_as_caco3: float, *, high: float | None = None) -> Measure:
    """An alkalinity of water.

    Parameters
    ----------
    alkalinity_mg_l_as_caco3
        The number, or the lower end of a range [mg/L as CaCO3].
    high
        Upper end where it is a range [mg/L as CaCO3].
    """
    return Measure(Quantity.ALKALINITY, alkalinity_mg_l_as_caco3, high)


def temperature(temp_c: float, *, high: float | None = None) -> Measure:
    """A temperature.

    Parameters
    ----------
    temp_c
        The number, or the lower end of a range [degC].
    high
        Upper end where it is a range [degC].
    """
    return Measure(Quantity.TEMPERATURE, temp_c, high)


def choice(name: str) -> str:
    """A name in a table or a bed file as a choice between wordings."""
    return re.sub("[^a-z0-9]+", "-", name.casefold()).strip("-")


def plants(names: tuple[str, ...] | list[str], *, either: bool = False) -> Listed:
    """Plants one after the other, by their names.

    Parameters
    ----------
    either
        True for ``or`` before the last.
    """
    return Listed(tuple(PlantName(name) for name in names), either)
