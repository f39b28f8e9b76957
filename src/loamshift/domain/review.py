"""A year of some beds: what was done, how the pH moved, how forecasts did, what comes next."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from loamshift.domain.answer import Wanted
from loamshift.domain.history import PutOn, TestRead
from loamshift.domain.score import ScoredPair, ScoreSummary


@dataclass(frozen=True, slots=True, kw_only=True)
class NextPart:
    """A part of the plan that is still to be put on: rate [g/m2], and amount for the bed [g]."""

    on: date
    material: str
    rate_g_m2: float
    amount_g: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class BedYear:
    """One bed in a year.

    ``before`` is the last careful test before the year and ``tests`` are those of the year.
    ``parts`` and ``retest`` come from the letter of ``letter_on``, or from a look today where that
    is None; ``test_first`` names the fact that is to be found out before anything is put on, by
    its path in the case file. ``perhaps`` parts wait for what a test says [count].
    """

    name: str
    where: str
    plants: tuple[str, ...]
    done: tuple[PutOn, ...]
    before: TestRead | None
    tests: tuple[TestRead, ...]
    wanted: Wanted | None
    scored: tuple[ScoredPair, ...]
    decision: str
    letter_on: date | None
    parts: tuple[NextPart, ...]
    perhaps: int
    retest: tuple[date, ...]
    test_first: str

    @property
    def last(self) -> TestRead | None:
        """The last careful test of the year, else its last test; None where there was none."""
        careful = [test for test in self.tests if not test.method.is_rough]
        tests = careful or self.tests
        return tests[-1] if tests else None

    @property
    def first(self) -> TestRead | None:
        """The test that the last one of the year is compared with; None where there is none."""
        if self.before is not None:
            return self.before
        careful = [test for test in self.tests if not test.method.is_rough]
        return careful[0] if len(careful) > 1 else None

    @property
    def moved_ph(self) -> float | None:
        """By how much the pH moved to the last test of the year [pH]; None where nobody knows."""
        if self.first is None or self.last is None or self.last.method.is_rough:
            return None
        return self.last.ph_water - self.first.ph_water


@dataclass(frozen=True, slots=True, kw_only=True)
class Bag:
    """A product on the shelf: its name there, its material, its pack [g] and the pack's price."""

    name: str
    material: str
    pack_g: float | None
    price: float | None
    currency: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class ToBuy:
    """What all beds together need of one product.

    ``amount_g`` over so many ``beds`` [g]; ``unmeasured`` beds need it too, and nobody said how
    large they are [count]. ``packs`` and their ``cost`` are None where no pack or price is known.
    """

    material: str
    amount_g: float
    beds: int
    unmeasured: int
    bag: Bag | None
    packs: int | None
    cost: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class YearReview:
    """Some beds in a year, and what they need until ``until`` together.

    ``faulty`` beds could not be read and are left out, and so are the ``waiting`` ones, which
    nobody has thought about yet [count].
    """

    year: int
    today: date
    until: date
    beds: tuple[BedYear, ...]
    summary: ScoreSummary
    to_buy: tuple[ToBuy, ...]
    faulty: int = 0
    waiting: int = 0
