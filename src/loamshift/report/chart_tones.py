"""The colours of charts by name, and what each is on paper, in the dark, and printed in black.

A drawing names its colours; only what writes it out asks what they are, so that one drawing
serves every tone.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from functools import partial
from types import MappingProxyType
from typing import Final


class Tone(StrEnum):
    """Where a chart will be looked at."""

    LIGHT = "light"
    DARK = "dark"
    PRINT = "print"
    """For a printer without colour: outlines and patterns where the others have hues."""


class Colour(StrEnum):
    """A colour of charts; text stands only in those from ``INK`` to ``BASE`` and ``ON_*``."""

    PAPER = "paper"
    INK = "ink"
    QUIET = "quiet"
    RUST = "rust"
    ACID = "acid"
    NEUTRAL = "neutral"
    BASE = "base"
    RULE = "rule"
    BAND_OUTER = "band-outer"
    """The outer part of a forecast's band, seen through; ``BAND_INNER`` lies on it."""
    BAND_INNER = "band-inner"
    PAST = "past"
    """The band of a forecast of its time, seen through."""
    SPAN = "span"
    """The range of a dose."""
    FIELD_ACID = "field-acid"
    """The field of a range wanted; likewise neutral and base."""
    FIELD_NEUTRAL = "field-neutral"
    FIELD_BASE = "field-base"
    HATCH = "hatch"
    BAR_ACID = "bar-acid"
    BAR_BASE = "bar-base"
    OUTLINE = "outline"
    """Edges where there is no colour; unseen in the other tones."""
    LINED = "lined"
    """Fine lines in a field or a bar where there is no colour; unseen in the other tones."""
    WARM = "warm"
    """The hue of warm soil; a share of it, seen through, is cooler."""
    ON_COOL = "on-cool"
    """Text on pale warmth; ``ON_WARM`` on strong, ``ON_BOTH`` where paper and dark agree."""
    ON_WARM = "on-warm"
    ON_BOTH = "on-both"
    PH_1 = "ph-1"
    """Ground by its pH, from very acid plum over bone to petrol; ``PH_16`` the least acid."""
    PH_2 = "ph-2"
    PH_3 = "ph-3"
    PH_4 = "ph-4"
    PH_5 = "ph-5"
    PH_6 = "ph-6"
    PH_7 = "ph-7"
    PH_8 = "ph-8"
    PH_9 = "ph-9"
    PH_10 = "ph-10"
    PH_11 = "ph-11"
    PH_12 = "ph-12"
    PH_13 = "ph-13"
    PH_14 = "ph-14"
    PH_15 = "ph-15"
    PH_16 = "ph-16"
    RATE_0 = "rate-0"
    """Ground by what goes on it: nothing; ``RATE_5`` the most."""
    RATE_1 = "rate-1"
    RATE_2 = "rate-2"
    RATE_3 = "rate-3"
    RATE_4 = "rate-4"
    RATE_5 = "rate-5"


Colours = Mapping[Colour, str | None]
"""What each colour is [hex, the last two digits of eight for how far it covers]; None unseen."""

UNSEEN: Final = frozenset((Colour.OUTLINE, Colour.LINED))
"""Colours that only print has."""

PALETTES: Mapping[Tone, Colours] = MappingProxyType(
    {
        Tone.LIGHT: MappingProxyType(
            {
                Colour.PAPER: "#FBF8F2",
                Colour.INK: "#22201C",
                Colour.QUIET: "#6B645A",
                Colour.RUST: "#8C3A1E",
                Colour.ACID: "#7A3E65",
                Colour.NEUTRAL: "#6B5B3A",
                Colour.BASE: "#2F6B7C",
                Colour.RULE: "#DDD5C7",
                Colour.BAND_OUTER: "#8C3A1E26",
                Colour.BAND_INNER: "#8C3A1E30",
                Colour.PAST: "#6B645A1F",
                Colour.SPAN: "#DDBCAB",
                Colour.FIELD_ACID: "#EEE3E8",
                Colour.FIELD_NEUTRAL: "#ECE6D2",
                Colour.FIELD_BASE: "#DCE8E9",
                Colour.HATCH: "#CFC5B4",
                Colour.BAR_ACID: "#7A3E65",
                Colour.BAR_BASE: "#2F6B7C",
                Colour.OUTLINE: None,
                Colour.LINED: None,
                Colour.WARM: "#96451C",
                Colour.ON_COOL: "#000000",
                Colour.ON_WARM: "#FFFFFF",
                Colour.ON_BOTH: "#000000",
                Colour.PH_1: "#5A2848",
                Colour.PH_2: "#663254",
                Colour.PH_3: "#7E486A",
                Colour.PH_4: "#966284",
                Colour.PH_5: "#AF809E",
                Colour.PH_6: "#C49EB6",
                Colour.PH_7: "#D7BCCC",
                Colour.PH_8: "#E4D1D3",
                Colour.PH_9: "#EBDFCE",
                Colour.PH_10: "#E2E1CE",
                Colour.PH_11: "#C6D8D3",
                Colour.PH_12: "#A6C7CC",
                Colour.PH_13: "#82AFBA",
                Colour.PH_14: "#5F95A3",
                Colour.PH_15: "#3F7989",
                Colour.PH_16: "#2F6B7C",
                Colour.RATE_0: "#F4EEE0",
                Colour.RATE_1: "#CFE0E3",
                Colour.RATE_2: "#A3C4CB",
                Colour.RATE_3: "#74A4B0",
                Colour.RATE_4: "#488494",
                Colour.RATE_5: "#235663",
            }
        ),
        Tone.DARK: MappingProxyType(
            {
                Colour.PAPER: "#1D1B18",
                Colour.INK: "#EDE7DB",
                Colour.QUIET: "#A9A193",
                Colour.RUST: "#E39A78",
                Colour.ACID: "#CF9BBE",
                Colour.NEUTRAL: "#CBB98C",
                Colour.BASE: "#7FBDCC",
                Colour.RULE: "#3A362F",
                Colour.BAND_OUTER: "#E39A7829",
                Colour.BAND_INNER: "#E39A7838",
                Colour.PAST: "#A9A1931F",
                Colour.SPAN: "#6B4633",
                Colour.FIELD_ACID: "#34293A",
                Colour.FIELD_NEUTRAL: "#332F22",
                Colour.FIELD_BASE: "#1F3439",
                Colour.HATCH: "#544D42",
                Colour.BAR_ACID: "#B57FA3",
                Colour.BAR_BASE: "#5FA3B5",
                Colour.OUTLINE: None,
                Colour.LINED: None,
                Colour.WARM: "#F0B183",
                Colour.ON_COOL: "#FFFFFF",
                Colour.ON_WARM: "#000000",
                Colour.ON_BOTH: "#000000",
                Colour.PH_1: "#DDA9CB",
                Colour.PH_2: "#D39EC1",
                Colour.PH_3: "#BF8AAD",
                Colour.PH_4: "#AA7698",
                Colour.PH_5: "#926383",
                Colour.PH_6: "#7C546F",
                Colour.PH_7: "#67465D",
                Colour.PH_8: "#58414C",
                Colour.PH_9: "#4E433C",
                Colour.PH_10: "#45483E",
                Colour.PH_11: "#3A4E50",
                Colour.PH_12: "#3B5F69",
                Colour.PH_13: "#467886",
                Colour.PH_14: "#5993A3",
                Colour.PH_15: "#72AFBE",
                Colour.PH_16: "#7FBDCC",
                Colour.RATE_0: "#2A2722",
                Colour.RATE_1: "#2B4A52",
                Colour.RATE_2: "#3B6874",
                Colour.RATE_3: "#528A99",
                Colour.RATE_4: "#73AEBD",
                Colour.RATE_5: "#A6D6E2",
            }
        ),
        Tone.PRINT: MappingProxyType(
            {
                Colour.PAPER: "#FFFFFF",
                Colour.INK: "#000000",
                Colour.QUIET: "#3C3C3C",
                Colour.RUST: "#000000",
                Colour.ACID: "#000000",
                Colour.NEUTRAL: "#000000",
                Colour.BASE: "#000000",
                Colour.RULE: "#C4C4C4",
                Colour.BAND_OUTER: "#00000017",
                Colour.BAND_INNER: "#00000026",
                Colour.PAST: "#3C3C3C1F",
                Colour.SPAN: "#C9C9C9",
                Colour.FIELD_ACID: "#FFFFFF",
                Colour.FIELD_NEUTRAL: "#FFFFFF",
                Colour.FIELD_BASE: "#FFFFFF",
                Colour.HATCH: "#9A9A9A",
                Colour.BAR_ACID: "#7A7A7A",
                Colour.BAR_BASE: "#FFFFFF",
                Colour.OUTLINE: "#4A4A4A",
                Colour.LINED: "#9A9A9A",
                Colour.WARM: "#808080",
                Colour.ON_COOL: "#000000",
                Colour.ON_WARM: "#000000",
                Colour.ON_BOTH: "#000000",
                Colour.PH_1: "#2E2E2E",
                Colour.PH_2: "#373737",
                Colour.PH_3: "#494949",
                Colour.PH_4: "#5A5A5A",
                Colour.PH_5: "#6C6C6C",
                Colour.PH_6: "#7C7C7C",
                Colour.PH_7: "#8A8A8A",
                Colour.PH_8: "#999999",
                Colour.PH_9: "#A7A7A7",
                Colour.PH_10: "#B4B4B4",
                Colour.PH_11: "#C2C2C2",
                Colour.PH_12: "#CECECE",
                Colour.PH_13: "#DCDCDC",
                Colour.PH_14: "#E9E9E9",
                Colour.PH_15: "#F8F8F8",
                Colour.PH_16: "#FFFFFF",
                Colour.RATE_0: "#FFFFFF",
                Colour.RATE_1: "#E0E0E0",
                Colour.RATE_2: "#BEBEBE",
                Colour.RATE_3: "#989898",
                Colour.RATE_4: "#6E6E6E",
                Colour.RATE_5: "#444444",
            }
        ),
    }
)
"""The colours of each tone."""


def tones_css() -> str:
    """The colours of charts as a style sheet: on paper, on a dark screen, printed in black."""
    dark = f"@media screen and (prefers-color-scheme: dark) {{\n{_rule(Tone.DARK)}\n}}"
    return f"{_rule(Tone.LIGHT)}\n{dark}\n@media print {{\n{_rule(Tone.PRINT)}\n}}\n"


def _rule(tone: Tone) -> str:
    colours = (
        f"--p-{colour.value}: {(value or 'transparent').lower()};"
        for colour, value in PALETTES[tone].items()
    )
    return f".chart {{ {' '.join(colours)} }}"


def ph_ink(ph: float) -> tuple[Colour, Colour]:
    """Colour of the words and of the field for a range round a pH: plum, bone or petrol.

    Parameters
    ----------
    ph
        Middle of the range [pH].
    """
    if ph < 6.0:
        return Colour.ACID, Colour.FIELD_ACID
    if ph <= 7.2:
        return Colour.NEUTRAL, Colour.FIELD_NEUTRAL
    return Colour.BASE, Colour.FIELD_BASE


def contrast(one: str, other: str) -> float:
    """How far two colours stand apart.

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


def mixed(over: str, under: str, share: float) -> str:
    """One colour seen through at a share of it [0-1] over another."""
    channels = (
        round(under_ + share * (over_ - under_))
        for over_, under_ in zip(_channels(over), _channels(under), strict=True)
    )
    return "#" + "".join(f"{channel:02X}" for channel in channels)


def on_warmth(share: float) -> Colour:
    """The colour of words on so much warmth, readable on paper and in the dark.

    Parameters
    ----------
    share
        How much of the hue of warm soil covers the paper [0-1].
    """
    best = tuple(_best_ink(PALETTES[tone], share) for tone in (Tone.LIGHT, Tone.DARK))
    return next(
        colour
        for colour in (Colour.ON_COOL, Colour.ON_WARM, Colour.ON_BOTH)
        if best == (PALETTES[Tone.LIGHT][colour], PALETTES[Tone.DARK][colour])
    )


def _best_ink(colours: Colours, share: float) -> str:
    """Black or white, whichever stands out from so much of the hue [0-1] on the paper."""
    fill = mixed(str(colours[Colour.WARM]), str(colours[Colour.PAPER]), share)
    return max(("#000000", "#FFFFFF"), key=partial(contrast, fill))


def _channels(colour: str) -> tuple[int, int, int]:
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)


def _luminance(colour: str) -> float:
    linear = [
        c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4
        for c in (channel / 255.0 for channel in _channels(colour))
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
