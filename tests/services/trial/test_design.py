"""The design: grams, layout, what it can show, and when it is only a demonstration."""

import numpy as np
import pytest

from invented_trials import plan
from loamshift.domain.trial import Lack


def test_grams_of_a_pot_are_its_area_by_the_rate() -> None:
    made = plan()
    assert made.grams == ((), (pytest.approx(300.0),), (pytest.approx(3.0),))


def test_blocks_hold_every_treatment_once() -> None:
    made = plan('design = "blocks"\nreplicates = 4')
    for block in range(1, 5):
        assert sorted(p.treatment for p in made.places if p.block == block) == [0, 1, 2]
    assert {(p.row, p.block) for p in made.places} == {(n, n) for n in range(1, 5)}


def test_own_slurries_give_the_error() -> None:
    """Pooled sd of two soils: squares 0.02 and 0.02 with 2 and 2 degrees of freedom."""
    made = plan("slurry = [[7.0, 7.1, 7.2], [6.5, 6.6, 6.7]]")
    assert (made.error.basis, made.error.df) == ("slurry", 4)
    assert made.error.sd_ph == pytest.approx(np.sqrt(0.04 / 4))


def test_more_pots_show_less() -> None:
    sizes = [size for _, size in plan().by_replicates]
    assert sizes == sorted(sizes, reverse=True)
    assert plan("replicates = 4").smallest_ph > plan("replicates = 6").smallest_ph  # type: ignore[operator]


@pytest.mark.parametrize(
    ("head", "treatments", "lack"),
    [
        ("replicates = 1", None, Lack.REPLICATES),
        (
            "",
            '[[treatment]]\nname = "a"\nmaterial = "peat"\nrate = "3 kg/m2"\n'
            '[[treatment]]\nname = "b"\nmaterial = "peat"\nrate = "9 kg/m2"\n',
            Lack.CONTROL,
        ),
    ],
)
def test_a_demonstration_is_called_one(head: str, treatments: str | None, lack: Lack) -> None:
    made = plan(head) if treatments is None else plan(head, treatments)
    assert made.lacks == (lack,)


def test_only_hazards_are_cautions_of_a_trial() -> None:
    assert {caution.code for caution in plan().cautions} >= {"sulfur-dust"}
    assert "too-early" not in {caution.code for caution in plan().cautions}
