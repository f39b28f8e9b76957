"""Cut our own type from two open families and write it beside the report.

    python tools/type/build.py          write src/loamshift/report/type
    python tools/type/build.py --check  say what differs from a fresh cut; write nothing

Needs Debian's fonts-sil-charis and fonts-noto-core, and fontTools with Brotli. "Loam Serif" is
a cut of Charis SIL, "Loam Sans" one of Noto Sans, "Loam Hebrew" and "Loam Arabic" of Noto Sans
Hebrew and Arabic; all stay under the SIL Open Font License, which stands beside them. Charis and
SIL are reserved names, so the cut carries neither.

``widths.txt`` has how wide each character of the sans stands, for charts that keep their words
apart: upright, bold, then the first and the last code point of a run.

Kept are Latin letters, the signs that letters of advice use, Greek and Cyrillic in the sans for
the names people have, kerning and mark placement; Hebrew, and Arabic as Arabic, Persian and Urdu
write it, for names in print alone, because every browser has its own. Hinting and unused features
go. The same Debian packages give the same bytes.
"""

from __future__ import annotations

import argparse
import io
import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from fontTools import subset
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont

ROOT: Final = Path(__file__).resolve().parents[2]
TARGET: Final = ROOT / "src" / "loamshift" / "report" / "type"
DEBIAN: Final = Path("/usr/share/fonts/truetype")

LATIN: Final = (*range(0x20, 0x7F), *range(0xA0, 0x180), 0x18F, 0x1E9E, 0x218, 0x219, 0x21A, 0x21B)
VIETNAMESE: Final = (0x1A0, 0x1A1, 0x1AF, 0x1B0, *range(0x1EA0, 0x1EFA))
MARKS: Final = tuple(range(0x300, 0x30D))
SIGNS: Final = tuple(map(ord, "–—‘’‚“”„†‡•…‰′″⁄€₂₃₄²³¹⁰½¼¾×·µ°±≥≤≈−\u2009\u202f\u2011\u25a1\u25cc"))
GREEK: Final = tuple(range(0x386, 0x3CF))
CYRILLIC: Final = tuple(range(0x400, 0x460))
HEBREW: Final = (0x20, *range(0x5B0, 0x5C8), *range(0x5D0, 0x5EB), *range(0x5F0, 0x5F5))
ARABIC: Final = (
    *(0x20, 0x60C, 0x61B, 0x61F, *range(0x621, 0x63B), *range(0x640, 0x656), *range(0x660, 0x66A)),
    *(0x670, 0x671, 0x679, 0x67E, 0x686, 0x688, 0x691, 0x698, 0x6A9, 0x6AF, 0x6BA, 0x6BE, 0x6C1),
    *(0x6C3, 0x6CC, 0x6D2, 0x6D4, *range(0x6F0, 0x6FA), 0x200C),
)
FEATURES: Final = ("kern", "mark", "mkmk", "ccmp", "locl", "tnum", "lnum", "frac", "sups")
JOINED: Final = ("init", "medi", "fina", "isol", "rlig", "liga", "calt")
"""What makes Arabic letters join."""


@dataclass(frozen=True)
class Face:
    """One file of ours and the file it is cut from."""

    source: str
    family: str
    style: str
    codes: tuple[int, ...]
    features: tuple[str, ...] = FEATURES
    only_printed: bool = False

    @property
    def stem(self) -> str:
        """``LoamSerif-Regular``."""
        return f"{self.family.replace(' ', '')}-{self.style}"


_SERIF: Final = (*LATIN, *VIETNAMESE, *MARKS, *SIGNS)
_SANS: Final = (*_SERIF, *GREEK, *CYRILLIC)
FACES: Final = (
    Face("charis/CharisSIL-Regular.ttf", "Loam Serif", "Regular", _SERIF),
    Face("charis/CharisSIL-Italic.ttf", "Loam Serif", "Italic", _SERIF),
    Face("charis/CharisSIL-Bold.ttf", "Loam Serif", "Bold", _SERIF),
    Face("noto/NotoSans-Regular.ttf", "Loam Sans", "Regular", _SANS),
    Face("noto/NotoSans-Bold.ttf", "Loam Sans", "Bold", _SANS),
    *(
        Face(
            f"noto/NotoSans{script}-{style}.ttf",
            f"Loam {script}",
            style,
            codes,
            features=(*FEATURES, *JOINED),
            only_printed=True,
        )
        for script, codes in (("Hebrew", HEBREW), ("Arabic", ARABIC))
        for style in ("Regular", "Bold")
    ),
)
_GLYPHS: Final = {"minus": 0x2212, "lessequal": 0x2264, "greaterequal": 0x2265, "square": 0x25A1}


def cut(face: Face) -> TTFont:
    """The font of one face: subset, renamed, with the signs its source lacks."""
    options = subset.Options()
    options.layout_features = list(face.features)
    options.hinting = False
    options.name_IDs = []
    options.notdef_outline = True
    options.recalc_timestamp = False
    options.drop_tables += ["Silf", "Glat", "Gloc", "Feat", "Sill", "Silt", "DSIG", "gasp"]
    font = subset.load_font(str(DEBIAN / face.source), options)
    notice = font["name"].getDebugName(0)
    subsetter = subset.Subsetter(options)
    subsetter.populate(unicodes=face.codes)
    subsetter.subset(font)
    if not face.only_printed:
        _add_signs(font)
    _name(font, face, notice)
    return font


def _add_signs(font: TTFont) -> None:
    """Draw minus, at most, at least and an empty square where the source has none."""
    have = font.getBestCmap()
    bar = _bar(font)
    left, low, right, high = bar
    for name, code in _GLYPHS.items():
        if code in have:
            continue
        pen = TTGlyphPen(font.getGlyphSet())
        advance = font["hmtx"][have[ord("+")]][0]
        if name == "minus":
            _rectangle(pen, left, low, right, high)
        elif name == "square":
            side, stroke = round(1.05 * (right - left)), high - low
            _rectangle(pen, left, 0, left + side, side)
            _rectangle(pen, left + stroke, stroke, left + side - stroke, side - stroke, inner=True)
        else:
            base = have[ord("<" if name == "lessequal" else ">")]
            drawing = DecomposingRecordingPen(font.getGlyphSet())
            font.getGlyphSet()[base].draw(drawing)
            _replay(drawing.value, pen, up=round(1.1 * (high - low)))
            _rectangle(pen, left, 0, right, high - low)
        font["glyf"][name] = glyph = pen.glyph()
        glyph.recalcBounds(font["glyf"])
        font["hmtx"][name] = (advance, left)
        for table in font["cmap"].tables:
            if table.isUnicode():
                table.cmap[code] = name
    font.setGlyphOrder(font["glyf"].glyphOrder)


def _bar(font: TTFont) -> tuple[int, int, int, int]:
    """The level stroke of the plus sign: left, low, right, high."""
    glyph = font["glyf"][font.getBestCmap()[ord("+")]]
    points = [(x, y) for x, y in glyph.getCoordinates(font["glyf"])[0]]
    left, right = min(x for x, _ in points), max(x for x, _ in points)
    ends = sorted(y for x, y in points if x == left)
    return left, ends[0], right, ends[-1]


def _rectangle(
    pen: TTGlyphPen, left: int, low: int, right: int, high: int, *, inner: bool = False
) -> None:
    corners = [(left, low), (left, high), (right, high), (right, low)]
    if inner:
        corners.reverse()
    pen.moveTo(corners[0])
    for corner in corners[1:]:
        pen.lineTo(corner)
    pen.closePath()


def _replay(drawing: list[tuple[str, tuple[Any, ...]]], pen: TTGlyphPen, *, up: int) -> None:
    for operator, points in drawing:
        getattr(pen, operator)(*((x, y + up) for x, y in points))


def _name(font: TTFont, face: Face, notice: str | None) -> None:
    """Our family name, the copyright of those who drew it, the licence."""
    table = font["name"]
    table.names = []
    entries = {
        0: notice or "",
        1: face.family,
        2: face.style,
        3: f"loamshift: {face.stem}",
        4: f"{face.family} {face.style}",
        5: "Version 1.000",
        6: face.stem,
        13: "This Font Software is licensed under the SIL Open Font License, Version 1.1.",
        14: "https://openfontlicense.org",
    }
    for number, text in entries.items():
        table.setName(text, number, 3, 1, 0x409)
    font["head"].modified = font["head"].created
    font["OS/2"].achVendID = "    "


def made_file(face: Face, flavor: str | None) -> bytes:
    """The bytes of one file of a face."""
    with cut(face) as font:
        font.flavor = flavor
        out = io.BytesIO()
        font.save(out, reorderTables=True)
    return out.getvalue()


def files() -> dict[str, bytes]:
    """Every file by its name: TrueType for print and charts, WOFF2 for the page, two tables."""
    made = {"coverage.txt": _coverage().encode("ascii"), "widths.txt": _widths().encode("ascii")}
    for face in FACES:
        for flavor, ending in ((None, "ttf"), ("woff2", "woff2")):
            if flavor and face.only_printed:
                continue
            made[f"{face.stem}.{ending}"] = made_file(face, flavor)
    return made


def _coverage() -> str:
    """The characters that can be set, as runs of code points, one run a line."""
    codes = sorted({code for face in FACES for code in cut(face).getBestCmap()})
    runs: list[list[int]] = []
    for code in codes:
        if runs and code == runs[-1][1] + 1:
            runs[-1][1] = code
        else:
            runs.append([code, code])
    return "".join(f"{first:04X} {last:04X}\n" for first, last in runs)


def _widths() -> str:
    """Advances of the sans in thousandths of its size, rounded up, as runs of code points."""
    fonts = [cut(face) for face in FACES if face.family == "Loam Sans"]
    return widths_text(fonts[0], fonts[1])


def widths_text(upright: TTFont, bold: TTFont) -> str:
    """How wide each character stands, one run of equal ones a line."""
    runs: list[list[int]] = []
    for code in sorted(upright.getBestCmap()):
        pair = [_advance(font, code) for font in (upright, bold)]
        if runs and runs[-1][:2] == pair and code == runs[-1][3] + 1:
            runs[-1][3] = code
        else:
            runs.append([*pair, code, code])
    return "".join(f"{a} {b} {first:04X} {last:04X}\n" for a, b, first, last in runs)


def _advance(font: TTFont, code: int) -> int:
    wide = int(font["hmtx"][font.getBestCmap()[code]][0])
    return -(-1000 * wide // int(font["head"].unitsPerEm))


def main(words: list[str]) -> int:
    """Write the files, or compare them; 1 where they differ."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--check", action="store_true", help="compare, write nothing")
    check = parser.parse_args(words).check
    missing = sorted({face.source for face in FACES if not (DEBIAN / face.source).exists()})
    if missing:
        print(f"not here: {', '.join(missing)}; install fonts-sil-charis and fonts-noto-core")
        return 1
    differ = False
    for name, content in files().items():
        path = TARGET / name
        if path.exists() and path.read_bytes() == content:
            continue
        differ = True
        print(f"{name}: {len(content)} bytes")
        if not check:
            path.write_bytes(content)
    return 1 if check and differ else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
