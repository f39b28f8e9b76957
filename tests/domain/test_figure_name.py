"""Names of figures in words: no unit at their end, pH and per cent kept where they are the name."""

from __future__ import annotations

import pytest

from loamshift.domain.figure_name import figure_called
from loamshift.tables.parameters import load_parameters


@pytest.mark.parametrize(
    ("name", "unit", "said"),
    [
        ("diffusivity_m2_s", "m2/s", "diffusivity"),
        ("sodic_pct", "%", "sodic per cent"),
        ("background_rise_per_ph", "1/pH", "background rise"),
        ("carbonate_plateau_highest_ph", "pH", "carbonate plateau highest pH"),
        ("reading_scatter_sd", "pH", "reading scatter spread"),
        ("seasons", "years", "seasons"),
    ],
)
def test_a_name_in_words(name: str, unit: str, said: str) -> None:
    assert figure_called(name, unit) == said


def test_every_parameter_has_a_name_without_lines_under_it() -> None:
    for topic in load_parameters().values():
        said = [figure_called(name, one.unit) for name, one in topic.items()]
        assert all(said) and not any("_" in one for one in said)
        assert len(set(said)) == len(said), "two figures of one topic are called the same"
