"""What a further test of a bed is worth, and which comes first."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from loamshift.domain.message import Worded


class FurtherTest(StrEnum):
    """Tests that can be made of a bed beside those of its plan."""

    FIZZ = "fizz"
    CARBONATE = "carbonate"
    LABORATORY_PH = "laboratory-ph"
    CORE = "core"
    BUFFER_PH = "buffer-ph"
    JARS = "jars"
    TEXTURE = "texture"
    ORGANIC_MATTER = "organic-matter"
    WATER = "water"
    WATER_AMOUNT = "water-amount"
    LATER_READING = "later-reading"


@dataclass(frozen=True, slots=True, kw_only=True)
class WorthOfTest:
    """What one test is worth.

    ``field`` of the case file that its result fills; ``on`` the day of a later reading, None for
    a test made now; ``planned`` true for a reading that the plan counts on already. ``gain`` share
    of the possible beds that come to lie in the range because the plan is chosen after it;
    ``changes`` the chance that something else goes on first, or nothing [0-1]. ``cost`` with
    postage, in ``currency``, None where the reader named none for a price of their own; ``days``
    to the result [d]; ``gain_per_cost`` by the price that tests are compared by [1/currency].
    ``how`` to make it; ``source_key`` of the price, None for the reader's own.
    """

    test: FurtherTest
    field: str
    gain: float
    changes: float
    cost: float
    currency: str | None
    days: int
    gain_per_cost: float
    how: Worded
    on: date | None = None
    planned: bool = False
    source_key: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class SamplesLine:
    """How sure the reading is with so many further samples, and what they gain.

    ``samples`` further ones, 0 for what there is [count]; ``error_ph`` half-width of the 95 %
    range of the reading [pH]; ``gain`` as of a test, None where nothing is planned [0-1];
    ``cost`` of them all with postage once, in ``currency``.
    """

    samples: int
    error_ph: float
    gain: float | None
    cost: float
    currency: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class SamplesOfGround:
    """How many cores a sample of the ground is mixed from, and what further samples bring.

    ``cores`` to mix; ``core_error_ph`` and ``mixed_error_ph`` half-widths of the 95 % range of
    one core and of the mix about the whole bed [pH]. ``test`` that each further sample gets;
    ``words`` say it; ``lines`` from no further sample up; ``source_key`` of the price of a sample,
    None for the reader's own.
    """

    cores: int
    core_error_ph: float
    mixed_error_ph: float
    test: FurtherTest
    words: Worded
    lines: tuple[SamplesLine, ...]
    source_key: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Worth:
    """What further tests are worth, that with most gain per cost first.

    ``best`` the one to make first, None where none is worth its cost; ``words`` say it. ``now``
    share of the possible beds in range by the plan as it is, ``most`` what knowing everything
    would add [0-1], both None where nothing is planned. ``samples`` where the error of the reading
    is much of what makes the forecast wide, else None.
    """

    best: FurtherTest | None
    words: Worded
    now: float | None = None
    most: float | None = None
    tests: tuple[WorthOfTest, ...] = ()
    samples: SamplesOfGround | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class WorthOnDay:
    """What a test on a day that somebody named is worth.

    ``gain`` as of any test, None where nothing is left to decide by then [0-1]; ``words`` say it
    in a sentence.
    """

    on: date
    gain: float | None
    words: Worded
