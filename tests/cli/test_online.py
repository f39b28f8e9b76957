from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from loamshift.case import online_weather
from loamshift.case.read import parse_case
from loamshift.cli import answering, online
from loamshift.cli.answering import Wish, answered

CASE = 'case = 1\ntoday = 2026-04-12\n[place]\nname = "Minneapolis"\n[soil]\nph = 6.5\n'


def no_network(address: str) -> bytes:
    raise OSError(101, "Network is unreachable")


def test_without_a_network_the_answer_goes_on_and_one_line_says_so(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(online, "user_cache", lambda: tmp_path)
    monkeypatch.setattr(online_weather.with_online_weather, "__kwdefaults__", {"fetch": no_network})
    case = parse_case(CASE, today=date(2026, 4, 12))
    assert online.online_case(case) is case
    told = capsys.readouterr().err.strip()
    assert "Network is unreachable" in told.replace("\n", " ")
    assert "The answer uses the climate of the place" in " ".join(told.split())


def test_the_archive_is_asked_only_where_it_is_wished(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    asked: list[object] = []

    def ask(case: object) -> object:
        asked.append(case)
        return case

    monkeypatch.setattr(online, "online_case", ask)
    (tmp_path / "bed.toml").write_text(CASE, encoding="utf-8")
    plain = answered(tmp_path / "bed.toml", Wish(years=0))
    assert not asked
    wished = answered(tmp_path / "bed.toml", Wish(years=0, online=True))
    assert len(asked) == 1
    assert wished.answer == plain.answer
    assert answering.Wish().online is False
