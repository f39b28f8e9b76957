"""``loamshift next``."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from loamshift.cli.next_test import prices_from
from loamshift.domain.worded_error import WordedError
from loamshift.domain.worth import FurtherTest

PATCH = Path(__file__).parents[2] / "examples" / "sandy-patch.toml"
FEW = ("--members", "25")


def test_the_page_names_the_test_and_lists_the_others(command) -> None:
    result = command("next", str(PATCH), *FEW)
    assert result.code == 0
    printed = result.out
    assert "What to test next" in printed
    assert "Buffer pH" in printed
    assert "price, USD" in printed


def test_json_has_the_figures(command) -> None:
    result = command("next", str(PATCH), *FEW, "--json", "--price", "buffer-ph=12")
    assert result.code == 0
    found = json.loads(result.out)
    row = next(one for one in found["tests"] if one["test"] == "buffer-ph")
    assert row["cost"] == 12.0
    assert row["currency"] is None


@pytest.mark.parametrize("text", ["buffer=12", "fizz", "fizz=dear", "fizz=-1", "=3"])
def test_a_price_that_is_none_is_refused(text: str, command) -> None:
    result = command("next", str(PATCH), "--price", text)
    assert result.code == 1
    assert text in result.err
    assert "For example" in result.err


def test_prices_by_name() -> None:
    assert prices_from(["fizz=0", "Jars=7.5"]) == {FurtherTest.FIZZ: 0.0, FurtherTest.JARS: 7.5}
    with pytest.raises(WordedError):
        prices_from(["probe=3"])
