from __future__ import annotations

import pytest

from loamshift.domain.names import NameFault
from loamshift.services.search import search_keys

NAMES = {"red oak": (), "pin oak": ("swamp oak", "Quercus palustris"), "elm": ("wych elm",)}


@pytest.mark.parametrize(
    ("text", "keys"),
    [
        ("", ("elm", "pin oak", "red oak")),
        ("oak", ("pin oak", "red oak")),
        ("Red  Oak", ("red oak",)),
        ("palustris quercus", ("pin oak",)),
        ("elm", ("elm",)),
    ],
)
def test_search_by_part_of_a_name(text: str, keys: tuple[str, ...]) -> None:
    assert search_keys(text, NAMES, kind="plant") == keys


def test_nothing_like_it_offers_the_nearest() -> None:
    with pytest.raises(NameFault) as fault:
        search_keys("rod oak", NAMES, kind="plant")
    assert "red oak" in fault.value.candidates
