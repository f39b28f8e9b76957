"""What was applied lately: told once a product, and no more of it where it acts the wrong way."""

from __future__ import annotations

from datetime import date

import pytest

from loamshift.domain.decision import Decision
from loamshift.services.advise import advise
from services.beds import bed
from wording import read

SOIL = 'ph = {}\nph_method = "water 1:1"\ntexture = "loam"\nfizz = "none"\nsampled = 2026-01-10'
PLANTED = 'area = "10 m2"\nplanted = true'
PINK = 'plant = "hydrangea (pink flowers)"'


def applied(material: str, *days: str, rate: float = 30.0) -> str:
    rows = (f'[[applied]]\ndate = {day}\nmaterial = "{material}"\nrate = {rate}' for day in days)
    return "\n".join(rows)


def because(more: str, *, ph: float = 5.5, aim: str = PINK) -> str:
    verdict = advise(bed(SOIL.format(ph), aim=aim, more=more)).verdict
    assert verdict.decision in (Decision.GO, Decision.EFFORT)
    return read(verdict.because)


def test_three_drenches_are_one_product_with_three_days_and_no_more_of_it() -> None:
    text = because(applied("aluminium sulfate", "2026-02-01", "2026-03-01", "2026-04-01"))
    assert text.startswith(
        "Apply no more aluminium sulphate here: it lowers the pH, which has to go up."
    )
    assert (
        "the aluminium sulphate applied on 1 February 2026, 1 March 2026 and 1 April 2026 has"
        in text
    )


def test_many_applications_are_counted_between_the_first_and_the_last() -> None:
    days = [date(2026, 1, 12 + 3 * n).isoformat() for n in range(5)]
    text = because(applied("aluminium sulfate", *days, rate=15.0))
    assert "applied 5 times from 12 January 2026 to 24 January 2026 has" in text


def test_two_products_are_told_each_with_its_days() -> None:
    text = because(
        applied("aluminium sulfate", "2026-02-01", "2026-03-01", rate=40.0)
        + "\n"
        + applied("ferrous sulfate heptahydrate", "2026-02-15", rate=60.0)
    )
    assert "sulphate" in text and "they lower the pH" in text and "have lowered it since" in text


@pytest.mark.parametrize(
    ("more", "ph"),
    [
        ("", 5.5),
        (applied("aluminium sulfate", "2024-03-01"), 5.5),  # long ago
        (applied("aluminium sulfate", "2026-02-01", rate=0.5), 5.5),  # next to nothing
        (applied("ground limestone", "2025-12-01", rate=60.0), 5.2),  # the right way
    ],
)
def test_nothing_is_forbidden_that_is_past_small_or_the_right_way(more: str, ph: float) -> None:
    assert "no more" not in because(more, ph=ph)


def test_lime_is_to_stop_where_the_bed_is_made_acid() -> None:
    more = applied("ground limestone", "2025-11-01", rate=150.0)
    text = because(more, ph=6.6, aim='plant = "highbush blueberry"')
    assert text.startswith(
        "Apply no more ground limestone here: it raises the pH, which has to come down."
    )


def test_a_bed_that_stays_as_it_is_is_limed_no_further() -> None:
    soil = SOIL.format(7.3).replace('"none"', '"slight"')
    more = applied("ground limestone", "2025-11-01", rate=800.0)
    verdict = advise(bed(soil, bed=PLANTED, aim='plant = "rhododendron"', more=more)).verdict
    assert verdict.decision is Decision.ELSEWHERE
    assert read(verdict.because).startswith(
        "Apply no more ground limestone here: that would only take the pH further from the range."
    )
