"""The buffer curve both ways, as table and picture."""

from __future__ import annotations

import xml.etree.ElementTree as ET

import numpy as np
import pytest

import loamshift
from loamshift.errors import ExtrapolationWarning, InputError, OutOfRangeError

SOIL = {"ph": 6.8, "ph_method": "water 1:2.5", "texture": "loam", "organic_matter_pct": 3}


@pytest.fixture(scope="module")
def curve() -> loamshift.BufferCurve:
    return loamshift.buffer_curve(**SOIL)


def test_acid_and_ph_undo_each_other(curve: loamshift.BufferCurve) -> None:
    acid = curve.acid_between(curve.ph_water, [6.0, 5.0, 7.5])
    np.testing.assert_allclose(curve.ph_after(acid), [6.0, 5.0, 7.5], atol=1e-9)
    assert isinstance(curve.acid_between(6.8, 6.0), float)
    assert acid[0] > 0.0 > acid[2]


def test_a_case_and_its_soil_give_one_curve(curve: loamshift.BufferCurve) -> None:
    other = loamshift.buffer_curve({"soil": SOIL})
    assert other.acid_between(6.5, 5.5) == curve.acid_between(6.5, 5.5)
    jars = [{"acid_mmolc_kg": 0, "ph": 6.8}, {"acid_mmolc_kg": 60, "ph": 5.9}]
    own = loamshift.buffer_curve({"soil": SOIL, "titration": jars})
    assert own.log10_k_sd < curve.log10_k_sd
    assert own.acid_between(6.5, 5.5) > curve.acid_between(6.5, 5.5)


def test_beyond_what_was_measured_it_warns_and_beyond_a_soil_it_refuses(
    curve: loamshift.BufferCurve,
) -> None:
    with pytest.warns(ExtrapolationWarning, match="from pH 3.0 to 8.5"):
        curve.acid_between(6.8, 2.5)
    with pytest.warns(ExtrapolationWarning), pytest.raises(OutOfRangeError):
        curve.acid_between(6.8, 14.0)


def test_the_table_runs_through_the_reading_and_holds_its_range(
    curve: loamshift.BufferCurve,
) -> None:
    frame = curve.to_frame(library="polars")
    assert frame["acid_mid_mmolc_kg"].is_sorted(descending=True)
    assert (frame["acid_lo90_mmolc_kg"] <= frame["acid_mid_mmolc_kg"]).all()
    assert (frame["acid_mid_mmolc_kg"] <= frame["acid_hi90_mmolc_kg"]).all()


@pytest.mark.parametrize("width", [280, 620])
def test_the_picture_holds_its_labels(curve: loamshift.BufferCurve, width: int) -> None:
    picture = curve.plot(width=width)
    root = ET.fromstring(picture.svg)
    texts = [text for node in root.iter() if node.tag.endswith("text") for text in node.itertext()]
    assert "pH in water" in texts and "0" in texts
    assert root.attrib["width"] == str(width)
    assert "pH 6.8" in picture.sentence
    assert "data:image/svg+xml" in curve._repr_html_() and "clay 20%" in repr(curve)


def test_a_soil_that_cannot_be_used_is_told() -> None:
    with pytest.raises(InputError, match="needs a soil pH"):
        loamshift.buffer_curve(texture="loam")
    with pytest.raises(InputError, match="not both"):
        loamshift.buffer_curve({"soil": SOIL}, ph=6.0)
