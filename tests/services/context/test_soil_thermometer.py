from __future__ import annotations

from datetime import date
from pathlib import Path

import numpy as np
import pytest

from loamshift.case.read import parse_case, read_case
from loamshift.domain.case import Case
from loamshift.services.context.build_context import build_context
from loamshift.services.context.soil_thermometer import soil_course_c, weather_said
from wording import read

TODAY = date(2026, 4, 12)
BED = 'case = 1\n[place]\nname = "Minneapolis"\n{}\n[bed]\nkind = "{}"\n[soil]\nph = 6.5\n'
SUMMER = [(f"2025-{month:02d}-01", temp) for month, temp in ((5, 16), (6, 20), (7, 25))]
YEAR = [
    (f"2025-{month:02d}-15", temp)
    for month, temp in ((4, 9), (5, 16), (6, 22), (7, 26), (8, 25), (9, 20), (10, 13), (11, 6))
]


def bed(readings: list[tuple[str, int]], *, kind: str = "ground", depth: str = "10 cm") -> Case:
    listed = ", ".join(f'{{date = {day}, c = {c}, depth = "{depth}"}}' for day, c in readings)
    return parse_case(BED.format(f"soil_temp = [{listed}]" if readings else "", kind), today=TODAY)


def said(case: Case) -> str:
    return " ".join(read(one) for one in weather_said(build_context(case)))


def test_the_answer_names_the_climate_it_used() -> None:
    assert said(bed([])) == (
        "Climate used: Minneapolis. Monthly means of 1961 to 1990 from a gridded climatology."
    )


def test_a_few_readings_correct_the_mean_and_say_what_more_would_do() -> None:
    case = bed(SUMMER)
    context = build_context(case)
    alone = soil_course_c(case, depth_cm=context.depth_cm, thermometer=None)
    moved = np.array(context.soil_temp_c) - np.array(alone)
    summer = moved[120:270]
    assert summer.min() == pytest.approx(summer.max())
    assert summer.min() > 1.0
    assert "3 readings from 1 May 2025 to 1 July 2025" in said(case)
    assert "With readings in 8 different months" in said(case)


def test_readings_of_a_year_correct_the_seasons() -> None:
    case = bed(YEAR)
    context = build_context(case)
    assert context.thermometer is not None and context.thermometer.has_wave
    assert max(context.soil_temp_c) == pytest.approx(26.0, abs=1.5)
    assert "They correct the seasons as well" in said(case)


def test_a_pot_takes_readings_at_any_depth_alike() -> None:
    shallow, deep = (build_context(bed(SUMMER, kind="pot", depth=d)) for d in ("5 cm", "30 cm"))
    assert shallow.soil_temp_c == deep.soil_temp_c


def test_a_file_of_a_logger_is_used_up_to_the_day_of_the_advice(tmp_path: Path) -> None:
    lines = ["date,soil temp 8 cm (°C)"]
    lines += [f"2026-{month:02d}-{day:02d},{month}.5" for month in range(1, 8) for day in (1, 2)]
    (tmp_path / "logger.csv").write_text("\n".join(lines), encoding="utf-8")
    text = BED.format('soil_temp_file = "logger.csv"', "ground")
    (tmp_path / "bed.toml").write_text(text, encoding="utf-8")
    case = read_case(tmp_path / "bed.toml", today=TODAY)
    assert [(day.month, c, depth) for day, c, depth in case.soil_temps] == [
        (month, month + 0.5, 8.0) for month in range(1, 5)
    ]
    assert "“soil temp 8 cm (°C)” as the soil temperature at 8 cm in °C" in read(
        case.notes_on("place.soil_temp_file")[0]
    )
