"""A heading taken apart: what it names, in which unit, by which method."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final

from loamshift.case.intake.lab_units import unit_of
from loamshift.tables.header_words import HeaderWord, load_header_words

_IN_BRACKETS: Final = re.compile(r"[(\[{]([^()\[\]{}]*)[)\]}]")
_JOINED: Final = re.compile(r"(?<=[a-z])(?=[A-Z])")
_RATIO: Final = re.compile(r"\b1\s*[:/]\s*(10|1|2[.,]5|2|5)(?!\d|[.,]\d)")
_EXTRACTANTS: Final = (
    *("mehlich 3", "mehlich 1", "mehlich iii", "mehlich i", "mehlich", "m3", "m1", "olsen"),
    *("bray p1", "bray 1", "bray p2", "bray 2", "bray", "nh4oac", "ammonium acetate", "morgan"),
    *("modified morgan", "cal", "dl", "al method", "colwell", "bicarb", "acetate", "cobalt"),
    *("egner riehm", "egner", "spurway", "ammonium nitrate", "nh4no3", "dtpa", "edta", "resin"),
)
_SMALL: Final = frozenset("abcdefghijklmnopqrstuvwxyz")
_NOISE: Final = frozenset(
    {"soil", "test", "result", "results", "value", "level", "content", "lab", "the", "of", "in"}
    | {"by", "as", "total", "measured", "sample", "avg", "est", "calculated", "calc"}
    | {"extractable", "available", "exchangeable", "exch", "avail", "ext", "v", "m", "01", "0"}
    | {"gehalt", "teneur", "gehalte", "zawartosc", "halt", "sol", "bodem", "boden", "do", "del"}
    | {"estimated", "mean", "usda", "topsoil", "walkley", "black", "combustion", "loi", "iso"}
    | {"sum", "cation", "cations", "and", "or", "nr", "no", "ac", "acre"}
)
"""Words that do not change what a heading names when they stand beside it."""


_BESIDE_SIGNS: Final = _NOISE | {"index", "class", "base", "bs", "saturation", "sat", "cacl2"}
"""Words beside which one or two letters are still the sign of an element."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """A heading: its words, the unit and ratio and extractant it names, and what it may head.

    ``exact`` says that nothing of it was left over; ``left`` are the words that were.
    """

    text: str
    words: str
    unit: str = ""
    ratio: str = ""
    extractant: str = ""
    meanings: tuple[HeaderWord, ...] = ()
    matched: str = ""
    left: tuple[str, ...] = ()

    @property
    def exact(self) -> bool:
        """Whether the table of header words accounts for all of it."""
        return bool(self.meanings) and not self.left


def plain_words(text: str) -> str:
    """A text without accents, signs and case, words parted by one space.

    >>> plain_words("pH (H₂O), Réf. n°")
    'ph h2o ref n'
    """
    text = text.replace("ł", "l").replace("Ł", "L").replace("ß", "ss").replace("ø", "o")
    plain = unicodedata.normalize("NFKD", text)
    plain = plain.encode("ascii", "ignore").decode().casefold()
    return " ".join(re.findall(r"[a-z0-9]+", plain))


@lru_cache(maxsize=8_192)
def read_heading(text: str) -> Heading:
    """A heading as the table of header words has it.

    >>> one = read_heading("Organic Matter LOI, %")
    >>> one.meanings[0].key, one.unit
    ('om', '%')
    >>> read_heading("pH (1:2.5 H2O)").ratio, read_heading("DateSampled").meanings[0].key
    ('1:2.5', 'date_sampled')
    """
    read = _read(text)
    if not read.meanings and (parted := _JOINED.sub(" ", text)) != text:
        other = _read(parted)
        return replace(other, text=text) if other.meanings else read
    return read


def _read(text: str) -> Heading:
    text = text[:200]
    unit, rest = _unit_in(text)
    found = _RATIO.search(rest)
    ratio = f"1:{found[1].replace(',', '.')}" if found else ""
    whole = plain_words(rest)
    words = whole
    extractant = ""
    known = load_header_words()
    for attempt in (plain_words(text), whole):
        if attempt in known:
            return Heading(
                text=text, words=attempt, unit=unit, ratio=ratio, meanings=known[attempt],
                matched=attempt,
            )  # fmt: skip
    if ratio:
        words = plain_words(_RATIO.sub(" ", rest))
    for one in _EXTRACTANTS:
        if f" {one} " in f" {words} " and words != one:
            extractant = one
            less = " ".join(f" {words} ".replace(f" {one} ", " ").split())
            if less and words not in known:
                words = less
            break
    matched, left = _longest(words)
    return Heading(
        text=text,
        words=words,
        unit=unit,
        ratio=ratio,
        extractant=extractant,
        meanings=known.get(matched, ()),
        matched=matched,
        left=left,
    )


def _unit_in(text: str) -> tuple[str, str]:
    """The unit that a heading names, and the heading without it."""
    for match in reversed(list(_IN_BRACKETS.finditer(text))):
        unit = unit_of(match[1])
        if unit and not (unit == "m" and len(text) < 6):
            return unit, f"{text[: match.start()]} {text[match.end() :]}"
        parts = re.split(r"[,;]", match[1])
        units = [unit_of(part) for part in parts]
        if len(parts) > 1 and any(units):
            left = " ".join(p for p, u in zip(parts, units, strict=True) if not u)
            return next(
                u for u in units if u
            ), f"{text[: match.start()]} {left} {text[match.end() :]}"
    text = re.sub(r"(?<=ppm|g/l|/kg|/ac|/ha) (?:P|K|S|N|Mg|Ca|Na)$", "", text, flags=re.IGNORECASE)
    words = text.split()
    for count in (3, 2, 1):
        if len(words) > count and (unit := unit_of(" ".join(words[-count:]))):
            is_word = unit in ("m", "in", "ratio", "index", "none") and count == 1
            if is_word and not (unit == "in" and "depth" in text.casefold()):
                continue
            return unit, " ".join(words[:-count])
    for sign in (",", ";", " in ", " - ", "_", "/", ":", "|"):
        head, found, tail = text.rpartition(sign)
        if found and head.strip() and (unit := unit_of(tail)) and len(tail.strip()) > 0:
            if sign in ("/", "_") and len(unit) == 1 and unit != "%":
                continue
            return unit, head
    if text.strip().endswith("%") and len(text.strip()) > 1:
        return "%", text.strip()[:-1]
    if text.strip().startswith("%") and len(text.strip()) > 1:
        return "%", text.strip()[1:]
    camel = re.fullmatch(
        r"(.+?)_(pct|perc|ppm|gkg|cmolckg|mgkg|dsm|cm|mm|percent)", text.strip(), re.I
    )
    if camel:
        return unit_of(camel[2]), camel[1]
    return "", text


def _longest(words: str) -> tuple[str, tuple[str, ...]]:
    """The longest wording of the table in these words, and what is left beside it.

    A wording of one or two letters counts only alone: ``s`` is sulfur in ``S`` and not in
    ``S 12``.
    """
    known = load_header_words()
    tokens = words.split()
    plain = [t for t in tokens if t not in _NOISE] or tokens
    for candidate in (" ".join(plain), " ".join(tokens)):
        if candidate in known:
            return candidate, ()
    for length in range(min(len(tokens), 6), 0, -1):
        for start in range(len(tokens) - length + 1):
            piece = " ".join(tokens[start : start + length])
            left = (*tokens[:start], *tokens[start + length :])
            short = length == 1 and len(piece) <= 2 and piece not in ("ph", "om")
            if piece not in known or (short and not set(left) <= _BESIDE_SIGNS):
                continue
            return piece, tuple(one for one in left if one not in _NOISE | _SMALL)
    return "", tuple(tokens)
