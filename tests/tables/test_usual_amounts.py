from __future__ import annotations

from loamshift.tables.materials import load_materials
from loamshift.tables.usual_amounts import load_usual_amounts


def test_every_usual_amount_makes_a_rate_of_a_known_material() -> None:
    materials = load_materials()
    rows = load_usual_amounts()
    assert len({row.key for row in rows}) == len(rows)
    for row in rows:
        assert 10.0 < row.rate_g_m2(materials[row.key]) < 1_500_000.0
        assert row.for_need in ("any", "acid", "lime")


def test_ten_are_listed_for_either_need() -> None:
    for need in ("acid", "lime"):
        assert sum(row.for_need in ("any", need) for row in load_usual_amounts()) == 10
