"""Numbers as people type them: decimal commas, thousands, fractions, a few number words."""

from __future__ import annotations

import math
import re

from loamshift.case.mend import Mend, for_example, quoted
from loamshift.domain.message import Message, message

_VULGAR = {"½": 0.5, "¼": 0.25, "¾": 0.75, "⅓": 1 / 3, "⅔": 2 / 3, "⅛": 0.125}
_WORDS = {
    "half": 0.5,
    "a quarter": 0.25,
    "a": 1.0,
    "an": 1.0,
    "one": 1.0,
    "two": 2.0,
    "three": 3.0,
    "four": 4.0,
    "five": 5.0,
    "six": 6.0,
    "seven": 7.0,
    "eight": 8.0,
    "nine": 9.0,
    "ten": 10.0,
    "twelve": 12.0,
}
_WORD_NUMBER = re.compile(
    r"(?P<half>half|a quarter)(?:\s+(?:a|an|of a))?\s+|(?P<word>an?|one|two|three|four|five|six"
    r"|seven|eight|nine|ten|twelve)\s+",
    re.IGNORECASE,
)
_DIGITS = re.compile(
    r"(?P<sign>[+\-−]?)\s*"
    r"(?:(?P<number>(?:\d{1,3}(?:[ \u00a0\u202f']\d{3})+(?!\d)|\d+)(?:[.,]\d+)*(?:[eE][+-]?\d+)?"
    r"|[.,]\d+)"
    r"(?:\s*/\s*(?P<over>\d+)(?![\d.,]))?"
    r"(?:(?:\s+|\s*-\s*)(?P<top>\d+)\s*/\s*(?P<bottom>\d+)(?![\d.,]))?"
    r"\s*(?P<vulgar>[½¼¾⅓⅔⅛])?"
    r"|(?P<only>[½¼¾⅓⅔⅛]))"
)
_RANGE = re.compile(r"\s*(?:-|–|—|to)\s*[\d.,]")
_MAX_CHARS = 200
_MAX_DIGITS = 40
_LARGEST = 1e15


def split_number(text: str, *right: Message) -> tuple[float, str]:
    """The number a text begins with, and the rest of the text.

    >>> split_number("2,5 cm"), split_number("1 1/2 in"), split_number("1,000 m2")
    ((2.5, 'cm'), (1.5, 'in'), (1000.0, 'm2'))

    Parameters
    ----------
    right
        What works instead; nothing where the key's own example is to be told.

    Returns
    -------
    tuple of float and str
        The number [unit of the text] and what follows it, stripped.

    Raises
    ------
    Mend
        Where there is no number, or it could mean two things.
    """
    text = text.strip()
    if len(text) > _MAX_CHARS:
        raise Mend(message("case-too-long-for-quantity"), *right)
    bare = text.lstrip("<>≤≥~≈ ")
    if bare != text:
        raise Mend(
            message("case-sign-before-figure", given=quoted(text)),
            message("case-limit-or-nothing"),
        )
    word = _WORD_NUMBER.match(text)
    if word:
        name = (word["half"] or word["word"]).lower()
        return _WORDS[name], text[word.end() :].strip()
    found = _DIGITS.match(text)
    if not found:
        raise Mend(message("case-no-number-first", given=quoted(text)), *right)
    rest = text[found.end() :]
    if _RANGE.match(rest):
        raise Mend(message("case-range", given=quoted(text)), message("case-middle-of-range"))
    value = _value(found)
    if not abs(value) <= _LARGEST:
        raise Mend(message("case-far-too-large", given=quoted(text)), *right)
    return (-value if found["sign"] in ("-", "−") else value), rest.strip()


def _value(found: re.Match[str]) -> float:
    if found["only"]:
        return _VULGAR[found["only"]]
    value = _plain_number(found["number"])
    if found["over"]:
        value = _ratio(top=value, bottom=float(found["over"]))
    if found["top"]:
        value += _ratio(top=float(found["top"]), bottom=float(found["bottom"]))
    if found["vulgar"]:
        value += _VULGAR[found["vulgar"]]
    return value


def _ratio(*, top: float, bottom: float) -> float:
    if bottom == 0.0:
        raise Mend(message("case-fraction-of-zero"), message("case-write-decimal"))
    return top / bottom


def _plain_number(text: str) -> float:
    """A run of digits with dots, commas or thousands spaces, as a number."""
    if len(text) > _MAX_DIGITS:
        raise Mend(
            message("case-too-many-digits", given=quoted(text)), message("case-usual-digits")
        )
    text = re.sub(r"[ \u00a0\u202f']", "", text)
    commas, dots = text.count(","), text.count(".")
    if commas and dots:
        decimal = "," if text.rfind(",") > text.rfind(".") else "."
        if text.count(decimal) > 1:
            raise _unclear(text)
        thousands = "." if decimal == "," else ","
        whole = text.rpartition(decimal)[0]
        _check_groups(whole, thousands, text)
        return float(text.replace(thousands, "").replace(decimal, "."))
    if commas > 1 or dots > 1:
        separator = "," if commas else "."
        _check_groups(text, separator, text)
        return float(text.replace(separator, ""))
    if commas:
        whole, _, after = text.partition(",")
        is_thousand = len(after) == 3 and whole not in ("", "0") and len(whole) <= 3
        return float(text.replace(",", "" if is_thousand else "."))
    return float(text)


def _check_groups(whole: str, separator: str, text: str) -> None:
    groups = whole.split(separator)
    if not 1 <= len(groups[0]) <= 3 or any(len(group) != 3 for group in groups[1:]):
        raise _unclear(text)


def _unclear(text: str) -> Mend:
    return Mend(
        message("case-dots-and-commas", given=quoted(text)), message("case-without-thousands")
    )


def number_from(value: object, *right: Message) -> float:
    """A finite number from what stood in the file, be it a TOML number or a text.

    Parameters
    ----------
    right
        What works instead; nothing where the key's own example is to be told.

    Returns
    -------
    float
        The number [unit of the key].

    Raises
    ------
    Mend
        For true/false, lists, NaN, infinity, text that is no number.
    """
    if isinstance(value, bool):
        raise Mend(message("case-not-a-number", given=quoted(value)), *right)
    if isinstance(value, int):
        if abs(value) > _LARGEST:
            raise Mend(message("case-far-too-large", given=quoted(value)), *right)
        return float(value)
    if isinstance(value, float):
        if not math.isfinite(value):
            raise Mend(message("case-not-a-number", given=quoted(value)), *right)
        if abs(value) > _LARGEST:
            raise Mend(message("case-far-too-large", given=quoted(value)), *right)
        return value
    if isinstance(value, str):
        number, rest = split_number(value, *right)
        if rest:
            raise Mend(
                message("case-more-than-number", rest=quoted(rest)),
                *(right or (for_example(_bare(number)),)),
            )
        return number
    raise Mend(message("case-not-a-number", given=quoted(value)), *right)


def _bare(number: float) -> str:
    return f"{number:.15g}"
