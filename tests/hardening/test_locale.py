"""The same case gives the same bytes wherever and in whatever language the machine stands."""

from __future__ import annotations

from pathlib import Path

import pytest

from hardening.fresh import CASE, FORECAST, STATIC, TODAY, environment, loamshift, usual

PLACES = {
    "first day of the world, plain ASCII": {
        "TZ": "Pacific/Kiritimati",
        "LC_ALL": "C",
        "PYTHONUTF8": "0",
        "PYTHONCOERCECLOCALE": "0",
    },
    "last day of the world, German": {
        "TZ": "Etc/GMT+12",
        "LC_ALL": "de_DE.UTF-8",
        "PYTHONUTF8": "0",
    },
    "no zone that exists, Turkish, where i has no dot": {
        "TZ": "Nowhere/Land",
        "LANG": "tr_TR.UTF-8",
    },
}


@pytest.mark.parametrize("place", PLACES)
def test_the_answer_is_the_same_bytes(place: str) -> None:
    done = loamshift(*FORECAST, "--json", env=environment(**PLACES[place]))
    assert done.returncode == 0, done.stderr
    assert done.stdout == usual(*FORECAST, "--json")
    assert "²" in done.stdout.decode()


def test_the_letter_is_the_same_bytes_printed_and_in_a_file(tmp_path: Path) -> None:
    ascii_only = environment(**PLACES["first day of the world, plain ASCII"])
    assert loamshift(*STATIC, env=ascii_only).stdout == usual(*STATIC)
    files = []
    for name, env in (("a.md", ascii_only), ("b.md", environment(LC_ALL="C.UTF-8"))):
        done = loamshift(*STATIC, "--md", str(tmp_path / name), env=env)
        assert done.returncode == 0, done.stderr
        files.append((tmp_path / name).read_bytes())
    assert files[0] == files[1] and "²".encode() in files[0]


def test_a_file_of_any_name_is_found_under_plain_ascii(tmp_path: Path) -> None:
    case = tmp_path / "Möhren · грядка.toml"
    case.write_bytes(CASE.read_bytes())
    env = environment(**PLACES["first day of the world, plain ASCII"])
    done = loamshift("advise", str(case), *TODAY, "--years", "0", env=env)
    assert done.returncode == 0, done.stderr
    assert done.stdout == usual(*STATIC)
    missing = loamshift("advise", str(tmp_path / "wörm.toml"), env=env)
    assert missing.returncode == 1 and b"toml" in missing.stderr
