"""Layers below the sample in the case file: read, written, and held against each other."""

from __future__ import annotations

import pytest

from loamshift.case.read import parse_case
from loamshift.case.write_case import case_to_toml
from loamshift.domain.ph import PhMethod
from loamshift.domain.soil import Fizz, FizzAcid
from loamshift.errors import CaseError

SAMPLE = 'ph = 6.0\nph_method = "water 1:1"\nsample_depth = "15 cm"'
CHALK = 'top = "30 cm"\nbottom = "60 cm"\nph = 7.9\nfizz = "strong"\nfizz_acid = "HCl"'
ACID = 'top = "6 in"\nbottom = "12 in"\nph = 4.4\nph_method = "CaCl2"\ncarbonate_pct = 0'


def text(*layers: str, sample: str = SAMPLE, kind: str = "ground") -> str:
    tables = "".join(f"[[soil.layer]]\n{layer}\n" for layer in layers)
    return f'case = 1\ntoday = 2026-04-12\n[bed]\nkind = "{kind}"\n[soil]\n{sample}\n{tables}'


def faults(*layers: str, sample: str = SAMPLE, kind: str = "ground") -> str:
    with pytest.raises(CaseError) as caught:
        parse_case(text(*layers, sample=sample, kind=kind))
    return str(caught.value)


def test_layers_are_read_from_the_uppermost_down() -> None:
    upper, lower = parse_case(text(CHALK, ACID)).soil.layers
    assert (upper.top_cm, upper.bottom_cm) == (pytest.approx(15.24), pytest.approx(30.48))
    assert (upper.ph, upper.method, upper.carbonate_pct) == (4.4, PhMethod.CACL2, 0.0)
    assert (lower.top_cm, lower.ph, lower.method) == (30.0, 7.9, PhMethod.UNKNOWN)
    assert (lower.fizz, lower.fizz_acid) == (Fizz.STRONG, FizzAcid.HCL)


def test_what_is_written_reads_back() -> None:
    case = parse_case(text(ACID.replace("12 in", "11 in"), CHALK))
    assert parse_case(case_to_toml(case)).soil == case.soil


def test_a_layer_that_overlaps_another_is_named_with_it() -> None:
    said = faults(CHALK, CHALK.replace("30 cm", "45 cm").replace("60 cm", "90 cm"))
    assert "soil.layer[2].top" in said
    assert "from 45 cm to 90 cm overlaps layer 1, from 30 cm to 60 cm" in said
    assert "Begin each layer where the one above it ends, or deeper." in said


def test_a_layer_inside_the_sample_may_not_have_another_ph() -> None:
    inside = CHALK.replace("30 cm", "10 cm")
    said = faults(inside)
    assert "soil.layer[1].top" in said
    assert "begins at 10 cm with pH 7.9" in said
    assert "the sample goes down to 15 cm with pH 6.0" in said
    alike = inside.replace("ph = 7.9", 'ph = 6.0\nph_method = "water 1:1"')
    assert parse_case(text(alike)).soil.layers[0].top_cm == 10.0


def test_where_nobody_said_how_deep_the_sample_went_the_usual_depth_counts() -> None:
    shallow = CHALK.replace("30 cm", "12 cm")
    assert "the sample goes down to 15 cm" in faults(shallow, sample="ph = 6.0")
    assert parse_case(text(shallow, sample="ph = 6.0", kind="lawn")).soil.layers


@pytest.mark.parametrize(
    ("old", "new", "path", "said"),
    [
        (
            'bottom = "60 cm"',
            'bottom = "20 cm"',
            "soil.layer[1].bottom",
            "at least 1 cm deeper than its top",
        ),
        ('bottom = "60 cm"\n', "", "soil.layer[1].bottom", "missing"),
        ("ph = 7.9", "", "soil.layer[1].ph", "missing"),
        ("60 cm", "3 m", "soil.layer[1].bottom", "deeper than a metre"),
        ("fizz_acid", "acid", "soil.layer[1].acid", "fizz_acid"),
    ],
)
def test_what_is_wrong_with_a_layer_is_said_with_its_path(
    old: str, new: str, path: str, said: str
) -> None:
    found = faults(CHALK.replace(old, new))
    assert path in found
    assert said in found
