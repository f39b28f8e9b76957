from __future__ import annotations

import base64
import io
import re
from pathlib import Path

import pytest
from fontTools.ttLib import TTFont

from loamshift.report.typeface import PAGE_FACES, font_faces_css, settable, type_folder
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
    for name, font in fonts().items():
        have = font.getBestCmap()
        assert not [sign for sign in "²³°·–—“”‘’≥≤×−µ½¼£€éŁř" if ord(sign) not in have], name


def test_figures_are_of_one_width() -> None:
    for name, font in fonts().items():
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
    ],
)
def test_what_the_type_lacks_becomes_a_square(text: str, kept: str) -> None:
    assert settable(text) == kept


def test_the_cut_is_what_the_tool_makes_today() -> None:
    face = build.FACES[0]
    if not (build.DEBIAN / face.source).exists():
        pytest.skip("the families the type is cut from are not installed")
    made = build.made_file(face, None)
    with type_folder() as folder:
        assert made == (Path(folder) / f"{face.stem}.ttf").read_bytes()
