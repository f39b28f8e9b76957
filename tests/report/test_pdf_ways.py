"""The largest way to set a front sheet is found in a few tries."""

from __future__ import annotations

import pytest

from loamshift.report.pdf import SETTINGS, Way, way_for
from loamshift.report.typesetting import Extent

HEIGHT_PT = 842.0


class Sheets:
    """How long a front sheet is in each setting [sheets], and how often it was measured."""

    def __init__(self, lengths: list[float]) -> None:
        self.lengths, self.tries = lengths, 0

    def __call__(self, way: Way) -> Extent:
        self.tries += 1
        length = self.lengths[SETTINGS.index(way)]
        whole = int(length) if length != int(length) else int(length) - 1
        down_pt = (length - whole) * HEIGHT_PT
        return Extent(sheets=whole + 1, down_pt=down_pt, height_pt=HEIGHT_PT)


@pytest.mark.parametrize(
    ("lengths", "setting"),
    [
        ([0.7, 0.6, 0.5, 0.4], 0),
        ([1.05, 0.95, 0.87, 0.8], 1),
        ([1.18, 1.08, 0.98, 0.9], 2),
        ([1.05, 1.01, 0.93, 0.85], 3),
        ([1.6, 1.4, 1.3, 1.1], 3),
    ],
)
def test_the_largest_that_takes_one_side_is_chosen(lengths: list[float], setting: int) -> None:
    sheets = Sheets(lengths)
    assert way_for(sheets) == SETTINGS[setting]
    assert sheets.tries <= 2


def test_no_setting_is_smaller_than_the_last_and_none_below_nine_and_a_half_points() -> None:
    sizes = [float(way["size"]) for way in SETTINGS]
    assert sizes == sorted(sizes, reverse=True) and sizes[-1] >= 9.5
