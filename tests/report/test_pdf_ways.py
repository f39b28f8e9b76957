"""The largest way to set a letter is found in a few tries."""

from __future__ import annotations

import pytest

from loamshift.report.pdf import SETTINGS, TIGHT, Way, way_for


class Sheets:
    """How many sheets a letter takes by setting, filled margin; and in the column alone."""

    def __init__(self, filled: list[int], column: int) -> None:
        self.filled, self.column, self.tries = filled, column, 0

    def __call__(self, way: Way) -> int:
        self.tries += 1
        setting = next(
            number
            for number, one in enumerate(SETTINGS)
            if all(way[name] == value for name, value in one.items())
        )
        return self.filled[setting] if way["fill"] else self.column


@pytest.mark.parametrize(
    ("filled", "column", "setting", "fill"),
    [
        ([2, 2, 2, 2, 2, 2], 2, 0, True),
        ([3, 2, 2, 2, 2, 2], 2, 1, True),
        ([4, 3, 3, 2, 2, 2], 2, 3, True),
        ([4, 4, 3, 3, 2, 2], 2, TIGHT, True),
        ([4, 4, 4, 4, 3, 2], 3, 5, True),
        ([4, 4, 4, 4, 3, 3], 3, TIGHT, True),
        ([2, 2, 2, 2, 2, 2], 1, TIGHT, False),
        ([1, 1, 1, 1, 1, 1], 1, 0, True),
    ],
)
def test_the_largest_that_takes_no_sheet_more_is_chosen(
    filled: list[int], column: int, setting: int, fill: bool
) -> None:
    sheets = Sheets(filled, column)
    chosen = way_for(sheets)
    assert all(chosen[name] == value for name, value in SETTINGS[setting].items())
    assert chosen["fill"] is fill
    assert sheets.tries <= 5
