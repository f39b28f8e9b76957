"""The course in characters: where the signs stand, and that nothing is told by colour."""

from __future__ import annotations

from datetime import date

import pytest

from loamshift.domain.letter import Figure, FigureKind
from loamshift.report.chart_drawing import number, rows_of
from loamshift.report.chart_plain import ALONE, COURSE, EDGE, PART, TEST, plain_picture
from report.drawn import COURSES, UK, US, figures


def field(figure: Figure, width: int = 80) -> tuple[list[str], list[float]]:
    """Rows of the field, and the pH of each."""
    lines = plain_picture(figure, width=width)
    rows = [line for line in lines if "│" in line]
    cells = [row.split("│", 1)[1] for row in rows]
    known = {n: float(row[:4]) for n, row in enumerate(rows) if row[:4].strip()}
    (a, ph_a), (b, ph_b) = min(known.items()), max(known.items())
    return cells, [ph_a + (n - a) * (ph_b - ph_a) / (b - a) for n in range(len(cells))]


@pytest.mark.parametrize("name", COURSES)
def test_the_median_stands_at_its_ph_at_both_ends(name: str) -> None:
    figure = figures(name)[FigureKind.COURSE]
    cells, values = field(figure)
    step = values[0] - values[1]
    rows = rows_of(figure, "course")
    wide = max(len(row) for row in cells)
    for column, row in ((0, rows[0]), (wide - 1, rows[-1])):
        at = [values[n] for n, cell in enumerate(cells) if cell[column : column + 1] == COURSE]
        assert any(abs(ph - number(row["q50"])) <= 0.5 * step + 1e-6 for ph in at)


def test_what_is_there_is_said_below_and_nothing_else() -> None:
    lines = plain_picture(figures("effort")[FigureKind.COURSE], width=80)
    text = "\n".join(lines)
    foot = next(n for n, line in enumerate(lines) if "└" in line)
    key = " ".join(lines[foot + 2 :])
    for sign in (COURSE, ALONE, EDGE, PART, TEST):
        assert f"{sign} " in key
    assert "90 in 100 tests" in key and "highbush blueberry" in key
    assert set(text) - set("\n") <= set(map(chr, range(32, 127))) | set("│└─")
    left = plain_picture(figures("leave")[FigureKind.COURSE], width=80)
    assert "untreated" not in " ".join(left)


def test_tests_and_applications_stand_under_their_days() -> None:
    figure = figures("effort")[FigureKind.COURSE]
    lines = plain_picture(figure, width=80)
    marks = lines[next(n for n, line in enumerate(lines) if "└" in line) + 1][6:]
    rows = rows_of(figure, "course")
    first, last = (date.fromisoformat(str(row["date"])) for row in (rows[0], rows[-1]))
    for name, sign in (("parts", PART), ("tests", TEST)):
        for row in rows_of(figure, name):
            if row.get("sure", "sure") != "sure":
                continue
            share = (date.fromisoformat(str(row["date"])) - first) / (last - first)
            at = round(share * 69)
            assert sign in marks[max(at - 1, 0) : at + 2]


def test_where_each_reading_leads_is_told_by_its_number() -> None:
    lines = plain_picture(figures("rule")[FigureKind.DECIDES], width=80)
    told = [line for line in lines if line.lstrip()[:1].isdigit() and "│" not in line]
    assert len(told) >= 2 and all("reads" in line for line in told)
    cells = "".join(line.split("│", 1)[1] for line in lines if "│" in line)
    assert {"1", "2"} <= set(cells)


@pytest.mark.parametrize("words", [UK, US])
@pytest.mark.parametrize("width", [30, 40, 80, 200])
def test_it_keeps_to_the_width(words: object, width: int) -> None:
    lines = plain_picture(figures("effort")[FigureKind.COURSE], width=width)
    assert all(len(line) <= min(width, 76) and line == line.rstrip() for line in lines)
    assert plain_picture(figures("effort")[FigureKind.COURSE], width=20) == []
