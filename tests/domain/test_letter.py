"""The parts of a letter refuse what cannot be laid out."""

from __future__ import annotations

import pytest

from loamshift.domain.letter import Column, Table


def test_a_row_has_one_cell_per_column() -> None:
    columns = (Column("Material"), Column("Dose"))
    assert Table(columns, (("sulfur", "60 g"),)).rows[0][1] == "60 g"
    for row in (("sulfur",), ("sulfur", "60 g", "more")):
        with pytest.raises(ValueError, match="cells, not 2"):
            Table(columns, (row,))
