from __future__ import annotations

import base64
import io
import re
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from loamshift.report.typeface import (
    PAGE_FACES,
    font_faces_css,
    runs_from_the_right,
    settable,
    type_folder,
    unsettable,
)
from type import build


def files() -> list[Path]:
    with type_folder() as folder:
        return sorted(Path(folder).iterdir())


def fonts() -> dict[str, TTFont]:
    return {
        path.name: TTFont(io.BytesIO(path.read_bytes()))
        for path in files()
        if path.suffix in (".ttf", ".woff2")
    }


def our_own() -> dict[str, TTFont]:
    """The faces that letters are set in; the others lend them letters for names."""
    return {name: font for name, font in fonts().items() if name.startswith("LoamS")}


def test_the_folder_is_small_and_the_licence_stands_in_it() -> None:
    assert sum(path.stat().st_size for path in files()) < 600_000
    licence = next(path for path in files() if path.name == "OFL.txt").read_text(encoding="utf-8")
    assert "SIL OPEN FONT LICENSE Version 1.1" in licence
    assert "SIL International" in licence and "Google LLC" in licence


def test_no_font_carries_a_reserved_name() -> None:
    for name, font in fonts().items():
        said = " ".join(font["name"].getDebugName(i) or "" for i in (1, 3, 4, 6, 16))
        assert "Loam" in said, name
        assert not re.search(r"Charis|SIL|Noto", said), name
        assert "Copyright" in (font["name"].getDebugName(0) or ""), name


def test_every_font_has_the_signs_that_letters_use() -> None:
    for name, font in our_own().items():
        have = font.getBestCmap()
        assert not [sign for sign in "²³°·–—“”‘’≥≤×−µ½¼£€éŁř" if ord(sign) not in have], name


def test_figures_are_of_one_width() -> None:
    for name, font in our_own().items():
        have = font.getBestCmap()
        assert len({font["hmtx"][have[ord(digit)]][0] for digit in "0123456789"}) == 1, name


def test_the_page_carries_its_faces_inside() -> None:
    css = font_faces_css()
    data = re.findall(r"base64,([A-Za-z0-9+/=]+)\)", css)
    assert len(data) == len(PAGE_FACES)
    assert all(base64.b64decode(one).startswith(b"wOF2") for one in data)
    assert "http" not in css


@pytest.mark.parametrize(
    ("text", "kept"),
    [
        ("naïve Łódź Ωδή", "naïve Łódź Ωδή"),
        ("a庭b", "a□b"),
        ("x\u200by", "xy"),
        ("a\u3000b", "a b"),
        ("גן של ليلى", "גן של ليلى"),
        ("🌹🌿 bed", "[rose][herb] bed"),
        ("👩🏽‍🌾 of the 👨‍👩‍👧‍👦", "[woman] of the [man]"),
        ("🇬🇧🇮🇱!", "[flag][flag]!"),
        ("☀️ side", "[black sun with rays] side"),
    ],
)
def test_what_the_type_lacks_becomes_a_square_or_a_name(text: str, kept: str) -> None:
    assert settable(text) == kept


def test_the_cut_is_what_the_tool_makes_today() -> None:
    face = build.FACES[0]
    if not (build.DEBIAN / face.source).exists():
        pytest.skip("the families the type is cut from are not installed")
    made = build.made_file(face, None)
    with type_folder() as folder:
        assert made == (Path(folder) / f"{face.stem}.ttf").read_bytes()


def test_what_could_not_be_set_is_known_by_its_characters() -> None:
    assert unsettable("庭 גן 🌹 庭园 □") == ("庭", "园")


@pytest.mark.parametrize(
    ("text", "is_so"), [("גן", True), ("— ليلى", True), ("North גן", False), ("12", False)]
)
def test_a_name_runs_as_its_first_letter_does(text: str, is_so: bool) -> None:
    assert runs_from_the_right(text) is is_so
