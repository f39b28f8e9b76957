"""What tests cost: the reader's own prices beside those of the table, never converted."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import Final

from loamshift.domain.case import Case
from loamshift.domain.worth import FurtherTest
from loamshift.tables.parameters import load_parameters, parameter_values

Prices = Mapping[FurtherTest, float]
NO_PRICES: Final[Prices] = {}
AT_HOME: Final = frozenset({FurtherTest.FIZZ, FurtherTest.TEXTURE, FurtherTest.WATER_AMOUNT})
"""Tests that need no laboratory, and no waiting."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Price:
    """A price of one test, and the postage of all sent together [currency].

    ``source_key`` None for the reader's own, which has its postage in it.
    """

    each: float
    currency: str | None
    source_key: str | None
    postage: float = 0.0

    @property
    def cost(self) -> float:
        """One test with postage [currency]."""
        return self.each + self.postage


@dataclass(frozen=True, slots=True, kw_only=True)
class Pricing:
    """The prices of tests.

    ``own`` are the reader's, in ``currency``, None where nobody named it; ``by_list`` where tests
    can be compared by the prices of the table alone.
    """

    own: Prices
    currency: str | None
    by_list: bool = False

    def of(self, test: FurtherTest) -> Price:
        """The price to be shown: the reader's own, else that of the table in its currency."""
        if test in self.own:
            return Price(each=self.own[test], currency=self.currency, source_key=None)
        listed = _listed(test)
        if self.own and self.currency is not None and listed.cost == 0.0:
            return Price(each=0.0, currency=self.currency, source_key=listed.source_key)
        return listed

    def compared(self, test: FurtherTest) -> float:
        """The price by which tests are compared with each other [currency]."""
        shown = self.of(test).cost
        return _listed(test).cost if self.by_list and shown > 0.0 else shown


def pricing(case: Case, told: Prices, *, tests: Collection[FurtherTest]) -> Pricing:
    """The prices of some tests, and how they compare.

    Parameters
    ----------
    told
        Prices beside those of the case, which they override [currency of the case].
    tests
        The tests that are weighed.

    Notes
    -----
    Nothing is converted. Where some prices are the reader's and others of the table in another
    currency, tests are compared by the table alone; nothing is nothing in either. Prices without
    a currency are taken to be in that of the table.

    References
    ----------
    own-arithmetic
    """
    own = {**{one.test: one.price for one in case.test_prices}, **told}
    plain = Pricing(own=own, currency=case.currency)
    named = {plain.of(test).currency for test in tests if plain.of(test).cost > 0.0}
    return Pricing(own=own, currency=case.currency, by_list=len(named - {None}) > 1)


def _listed(test: FurtherTest) -> Price:
    values, rows = parameter_values("measuring"), load_parameters()["measuring"]
    name = "cost_" + test.value.replace("-", "_")
    posted = test not in AT_HOME and test is not FurtherTest.JARS
    return Price(
        each=values[name],
        postage=values["postage"] if posted else 0.0,
        currency=rows[name].unit,
        source_key=rows[name].source_key,
    )
