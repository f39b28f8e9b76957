"""UK and US spelling of the same words, switched only when a text is shown."""

from __future__ import annotations

import re
from functools import cache

_PAIRS: tuple[tuple[str, str], ...] = (
    ("sulphur", "sulfur"),
    ("sulphuric", "sulfuric"),
    ("sulphate", "sulfate"),
    ("sulphates", "sulfates"),
    ("sulphide", "sulfide"),
    ("sulphides", "sulfides"),
    ("bisulphate", "bisulfate"),
    ("thiosulphate", "thiosulfate"),
    ("aluminium", "aluminum"),
    ("fertiliser", "fertilizer"),
    ("fertilisers", "fertilizers"),
    ("fertilise", "fertilize"),
    ("fertilised", "fertilized"),
    ("fertilising", "fertilizing"),
    ("neutralise", "neutralize"),
    ("neutralises", "neutralizes"),
    ("neutralised", "neutralized"),
    ("neutralising", "neutralizing"),
    ("neutralisation", "neutralization"),
    ("oxidise", "oxidize"),
    ("oxidises", "oxidizes"),
    ("oxidised", "oxidized"),
    ("oxidising", "oxidizing"),
    ("pelletised", "pelletized"),
    ("pulverised", "pulverized"),
    ("micronised", "micronized"),
    ("randomised", "randomized"),
    ("recognise", "recognize"),
    ("recognised", "recognized"),
    ("colour", "color"),
    ("colours", "colors"),
    ("coloured", "colored"),
    ("millimetre", "millimeter"),
    ("millimetres", "millimeters"),
    ("centimetre", "centimeter"),
    ("centimetres", "centimeters"),
    ("centre", "center"),
    ("centres", "centers"),
    ("litre", "liter"),
    ("litres", "liters"),
    ("mould", "mold"),
    ("moulds", "molds"),
    ("plough", "plow"),
    ("ploughed", "plowed"),
    ("ploughing", "plowing"),
    ("grey", "gray"),
    ("fibre", "fiber"),
    ("vapour", "vapor"),
    ("neighbour", "neighbor"),
    ("neighbours", "neighbors"),
    ("judgement", "judgment"),
    ("labelled", "labeled"),
    ("analyse", "analyze"),
    ("analysed", "analyzed"),
    ("behaviour", "behavior"),
    ("favour", "favor"),
)
_ONLY_TO_US: tuple[tuple[str, str], ...] = (("metre", "meter"), ("metres", "meters"))
"""Never the other way: a pH meter is a meter everywhere."""


@cache
def _switch(to: str) -> tuple[re.Pattern[str], dict[str, str]]:
    back = {us: uk for uk, us in _PAIRS}
    mapping = dict((*_PAIRS, *_ONLY_TO_US)) if to == "us" else back
    words = "|".join(sorted(map(re.escape, mapping), key=len, reverse=True))
    return re.compile(rf"(?<![\w/.])(?:{words})(?![\w/]|\.\w)", re.IGNORECASE), mapping


def spell(text: str, to: str) -> str:
    """A text in UK or US spelling; case is kept, and so are keys and file names.

    Examples
    --------
    >>> spell("Aluminium sulphate and sulfur", "us")
    'Aluminum sulfate and sulfur'
    """
    pattern, mapping = _switch(to)

    def switched(match: re.Match[str]) -> str:
        found = match.group(0)
        wanted = mapping[found.lower()]
        if found.isupper():
            return wanted.upper()
        if found[0].isupper():
            return wanted[0].upper() + wanted[1:]
        return wanted

    return pattern.sub(switched, text)


_PROPER = (
    "aleppo", "american", "amur", "asian", "boston", "brussels", "chinese", "cornelian", "douglas",
    "dutchman's", "english", "european", "german", "japanese", "jerusalem", "kentucky", "monterey",
    "new england", "norway", "ohio", "roman", "russian", "scots", "sharon", "st augustinegrass",
    "st john's", "susan", "swiss", "welsh",
)  # fmt: skip
"""Words in the names of plants that are written with a capital; the tables hold names without."""
_NAMES = re.compile(rf"(?<![\w-])(?:{'|'.join(_PROPER)})(?![\w-])")


def with_capitals(text: str) -> str:
    """A text with names of places and peoples in it written with a capital.

    Examples
    --------
    >>> with_capitals("kentucky bluegrass and new england aster")
    'Kentucky bluegrass and New England aster'
    """
    return _NAMES.sub(
        lambda found: " ".join(word[0].upper() + word[1:] for word in found.group().split(" ")),
        text,
    )
