"""Names of files that a page hands out."""

from __future__ import annotations

import re
from datetime import date
from urllib.parse import unquote

import pytest

from loamshift.web.downloads import LONGEST_BYTES, download, file_stem

DAY = date(2026, 4, 12)
SAFE = re.compile(r"[^\W_]+(-[^\W_]+)*")


def header(name: str, *, day: date | None = DAY) -> str:
    answer = download(b"x", name=name, tail=".pdf", kind="application/pdf", day=day)
    return answer.headers["Content-Disposition"]


def test_a_file_is_named_after_its_bed_and_day() -> None:
    assert header("North border") == 'attachment; filename="north-border-2026-04-12.pdf"'
    assert header("North border", day=None) == 'attachment; filename="north-border.pdf"'


@pytest.mark.parametrize(
    ("name", "plain", "whole"),
    [
        ("Hügel 3", "hugel-3", "hügel-3"),
        ("庭の花壇", "loamshift", "庭の花壇"),
        ("חלקה 2", "2", "חלקה-2"),
        ("क्यारी", "loamshift", "क्यारी"),
    ],
)
def test_letters_of_any_script_stay(name: str, plain: str, whole: str) -> None:
    told = header(name)
    found = re.fullmatch(r"attachment; filename=\"(.+)\"; filename\*=UTF-8''([\w%.-]+)", told)
    assert found is not None and told.isascii()
    assert found[1] == f"{plain}-2026-04-12.pdf"
    assert unquote(found[2]) == f"{whole}-2026-04-12.pdf"


@pytest.mark.parametrize(
    "name",
    ["", "🌱🌱", "///", "...", "\u202e\u200f", "\x00\x07"],
)
def test_a_name_without_letters_is_the_programs(name: str) -> None:
    assert header(name) == 'attachment; filename="loamshift-2026-04-12.pdf"'


@pytest.mark.parametrize(
    "name",
    [
        "../../etc/passwd",
        "C:\\beds\\one",
        'x"; filename="y.exe',
        "a\r\nSet-Cookie: b=c",
        "left\u202etfel.exe",
        "%2e%2e%2f",
        "~ $HOME `id` | &",
    ],
)
def test_a_name_is_never_more_than_a_name(name: str) -> None:
    assert SAFE.fullmatch(file_stem(name))
    told = header(name)
    assert "\r" not in told and "\n" not in told and told.count('"') == 2
    assert told.endswith('-2026-04-12.pdf"')


@pytest.mark.parametrize("letter", ["a", "ü", "庭", "𐐷"])
def test_a_long_name_is_cut_between_letters(letter: str) -> None:
    stem = file_stem(letter * 400)
    assert len(stem.encode("utf-8")) <= LONGEST_BYTES
    assert set(stem) == {letter.lower()}
    assert "-2026-04-12.pdf" in header(letter * 400)
