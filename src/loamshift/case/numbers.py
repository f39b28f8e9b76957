"""Numbers as people type them: decimal commas, thousands, fractions, a few number words."""

from __future__ import annotations

import math
import re

from loamshift.case.mend import Mend, shown

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


def split_number(text: str) -> tuple[float, str]:
    """The number a text begins with, and the rest of the text.

    >>> split_number("2,5 cm"), split_number("1 1/2 in"), split_number("1,000 m2")
    ((2.5, 'cm'), (1.5, 'in'), (1000.0, 'm2'))

    Parameters
    ----------
    text
        A quantity as written [text].

    Returns
    -------
    tuple of float and str
        The number [unit of the text] and what follows it, stripped [text].

    Raises
    ------
    Mend
        Where there is no number, or it could mean two things.
    """
    text = text.strip()
    if len(text) > _MAX_CHARS:
        raise Mend("far too long for a quantity", 'Write a figure and a unit, such as "20 m2".')
    bare = text.lstrip("<>≤≥~≈ ")
    if bare != text:
        raise Mend(
            "a figure with a sign such as < or ~ before it",
            "Write the figure alone; for “less than” write the limit or leave the key out.",
        )
    word = _WORD_NUMBER.match(text)
    if word:
        name = (word["half"] or word["word"]).lower()
        return _WORDS[name], text[word.end() :].strip()
    found = _DIGITS.match(text)
    if not found:
        raise Mend("it must start with a number", 'Write a figure and a unit, such as "20 m2".')
    rest = text[found.end() :]
    if _RANGE.match(rest):
        raise Mend("a range where one figure is needed", "Write the middle, or the likeliest one.")
    value = _value(found)
    if not abs(value) <= _LARGEST:
        raise Mend("a figure far too large to be meant", "Check the figure.")
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
        raise Mend("a fraction with zero below the line", "Write the figure as a decimal number.")
    return top / bottom


def _plain_number(text: str) -> float:
    """A run of digits with dots, commas or thousands spaces, as a number."""
    if len(text) > _MAX_DIGITS:
        raise Mend("a figure of far too many digits", "Write the figure with its usual digits.")
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
        f"“{shown(text)}” mixes dots and commas", "Write 1250.5 or 1250,5 without thousands marks."
    )


def number_from(value: object, *, expected: str = "a number") -> float:
    """A finite number from what stood in the file, be it a TOML number or a text.

    Parameters
    ----------
    value
        What was read [any].
    expected
        What should have stood there, for the message [text].

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
        raise Mend("true or false where a figure belongs", f"Write {expected}.")
    if isinstance(value, int):
        if abs(value) > _LARGEST:
            raise Mend("a whole number far too large to be meant", f"Write {expected}.")
        return float(value)
    if isinstance(value, float):
        if not math.isfinite(value):
            raise Mend("not a finite number", f"Write {expected}, or leave the key out.")
        if abs(value) > _LARGEST:
            raise Mend("a number far too large to be meant", f"Write {expected}.")
        return value
    if isinstance(value, str):
        number, rest = split_number(value)
        if rest:
            raise Mend(f"“{shown(rest)}” after the figure is not understood", f"Write {expected}.")
        return number
    raise Mend("not a figure", f"Write {expected}.")
