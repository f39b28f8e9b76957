"""The sets of colours that charts are drawn in: on paper, in the dark, and printed in black."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from types import MappingProxyType


class Tone(StrEnum):
    """Where a chart will be looked at."""

    LIGHT = "light"
    DARK = "dark"
    PRINT = "print"
    """For a printer without colour: outlines and patterns where the others have hues."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Palette:
    """Colours of one tone; text stands only in those from ``ink`` to ``base``.

    ``band`` of the forecast with the opacity of its outer and of its inner part; ``span`` of a
    dose; ``field_*`` of a range wanted; ``outline`` where the tone needs one; ``warm`` from the
    coldest soil to the warmest, ``on_warm`` the text that may stand on it.
    """

    paper: str
    ink: str
    quiet: str
    rust: str
    acid: str
    neutral: str
    base: str
    rule: str
    band: str
    band_opacity: tuple[float, float]
    span: str
    field_acid: str
    field_neutral: str
    field_base: str
    hatch: str
    bar_acid: str
    bar_base: str
    outline: str | None
    warm: tuple[str, ...]
    on_warm: tuple[str, str]


PALETTES: Mapping[Tone, Palette] = MappingProxyType(
    {
        Tone.LIGHT: Palette(
            paper="#FBF8F2",
            ink="#22201C",
            quiet="#6B645A",
            rust="#8C3A1E",
            acid="#7A3E65",
            neutral="#6B5B3A",
            base="#2F6B7C",
            rule="#DDD5C7",
            band="#8C3A1E",
            band_opacity=(0.15, 0.19),
            span="#DDBCAB",
            field_acid="#EEE3E8",
            field_neutral="#ECE6D2",
            field_base="#DCE8E9",
            hatch="#CFC5B4",
            bar_acid="#7A3E65",
            bar_base="#2F6B7C",
            outline=None,
            warm=("#E4E2D6", "#E9D3B8", "#D9A377", "#BC6A38", "#96451C"),
            on_warm=("#000000", "#FFFFFF"),
        ),
        Tone.DARK: Palette(
            paper="#1D1B18",
            ink="#EDE7DB",
            quiet="#A9A193",
            rust="#E39A78",
            acid="#CF9BBE",
            neutral="#CBB98C",
            base="#7FBDCC",
            rule="#3A362F",
            band="#E39A78",
            band_opacity=(0.16, 0.22),
            span="#6B4633",
            field_acid="#34293A",
            field_neutral="#332F22",
            field_base="#1F3439",
            hatch="#544D42",
            bar_acid="#B57FA3",
            bar_base="#5FA3B5",
            outline=None,
            warm=("#2B2B29", "#47392A", "#774A28", "#B4703D", "#E8AC78"),
            on_warm=("#FFFFFF", "#000000"),
        ),
        Tone.PRINT: Palette(
            paper="#FFFFFF",
            ink="#000000",
            quiet="#3C3C3C",
            rust="#000000",
            acid="#000000",
            neutral="#000000",
            base="#000000",
            rule="#C4C4C4",
            band="#000000",
            band_opacity=(0.09, 0.15),
            span="#C9C9C9",
            field_acid="#FFFFFF",
            field_neutral="#FFFFFF",
            field_base="#FFFFFF",
            hatch="#9A9A9A",
            bar_acid="#7A7A7A",
            bar_base="#FFFFFF",
            outline="#4A4A4A",
            warm=("#FFFFFF", "#EFEFEF", "#D9D9D9", "#BEBEBE", "#A3A3A3"),
            on_warm=("#000000", "#000000"),
        ),
    }
)
"""The colours of each tone."""


def ph_ink(ph: float, palette: Palette) -> tuple[str, str]:
    """Colour of the words and of the field for a range round a pH: plum, bone or petrol.

    Parameters
    ----------
    ph
        Middle of the range [pH].
    palette
        Colours to choose from [object].

    Returns
    -------
    tuple of str
        For text and for the field [hex colours].
    """
    if ph < 6.0:
        return palette.acid, palette.field_acid
    if ph <= 7.2:
        return palette.neutral, palette.field_neutral
    return palette.base, palette.field_base


def contrast(one: str, other: str) -> float:
    """How far two colours stand apart.

    Parameters
    ----------
    one
        A colour [hex].
    other
        Another [hex].

    Returns
    -------
    float
        Contrast of relative luminance, 1 to 21; small text needs 4.5 [1].

    Notes
    -----
    As the Web Content Accessibility Guidelines 2.2 define it for sRGB.
    """
    lighter, darker = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def between(colours: tuple[str, ...], share: float) -> str:
    """A colour [hex] between those of a row, 0 the first and 1 the last [0-1]."""
    place = min(max(share, 0.0), 1.0) * (len(colours) - 1)
    index = min(int(place), len(colours) - 2)
    rest = place - index
    mixed = (
        round(a + rest * (b - a))
        for a, b in zip(_channels(colours[index]), _channels(colours[index + 1]), strict=True)
    )
    return "#" + "".join(f"{channel:02X}" for channel in mixed)


def _channels(colour: str) -> tuple[int, int, int]:
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


def _luminance(colour: str) -> float:
    linear = [
        c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4
        for c in (channel / 255.0 for channel in _channels(colour))
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
