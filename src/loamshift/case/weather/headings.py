"""What a column of a weather file is by its heading: meaning, unit and depth."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum
from typing import Final


class Meaning(StrEnum):
    """What a column of a weather file holds."""

    DATE = "date"
    TIME = "time"
    YEAR = "year"
    MONTH = "month"
    DAY = "day"
    STATION = "station"
    MEAN = "mean"
    LOW = "low"
    HIGH = "high"
    RAIN = "rain"
    SOIL = "soil"


class Unit(StrEnum):
    """Units of such columns; tenths are what some archives keep as whole numbers."""

    CELSIUS = "celsius"
    FAHRENHEIT = "fahrenheit"
    TENTH_CELSIUS = "tenth-celsius"
    MM = "mm"
    INCH = "inch"
    TENTH_MM = "tenth-mm"
    CM = "cm"


TEMPERATURES: Final = (Meaning.MEAN, Meaning.LOW, Meaning.HIGH, Meaning.SOIL)
FIGURES: Final = (*TEMPERATURES, Meaning.RAIN)


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """One column: its place from 0, its heading as it stands, and what it is by that.

    ``unit`` is None where the heading gives none; ``depth_cm`` of a soil thermometer [cm].
    """

    index: int
    heading: str
    meaning: Meaning
    unit: Unit | None = None
    depth_cm: float | None = None


_OTHER: Final = re.compile(
    r"dew|humid|wet ?bulb|wind|gust|chill|index|apparent|feels|pressure|baro|radiation|solar"
    r"|flag|quality|\bqn|\bqc\b|moisture|\bvwc\b|conductiv|\bec\b|feucht|druck|indoor|inside"
    r"|\bin temp|temp in\b|\bheat|growing|degree days|\bgdd\b|snow|schnee|sunshine|evapo|\bet\b"
    r"|water temp|battery|rate|intensity|probability|hours|duration|leaf|attribute"
)
_SOIL: Final = re.compile(r"soil|ground|\bearth|boden|\berd|\bsol\b|suelo|\bts ?\d|\bst ?\d")
_TEMPERATURE: Final = re.compile(
    r"temp|\bt ?(avg|mean|min|max|air)|\bt2m\b|\btm[kn]?\b|\btg\b|\bt[nx]k?\b|\bt\b"
    r"|celsius|fahrenheit|\bdeg ?[cf]\b|°"
)
_LOW: Final = re.compile(r"min|\blow|tiefst|\btnk?\b")
_HIGH: Final = re.compile(r"max|\bhigh|höchst|hoechst|\btxk?\b")
_RAIN: Final = re.compile(
    r"rain|precip|\bprcp\b|\bppt\b|niederschlag|\bregen|pluie|lluvia|neerslag|\brsk?\b|\brr\b"
)
_PLAIN: Final[tuple[tuple[Meaning, re.Pattern[str]], ...]] = (
    (Meaning.YEAR, re.compile(r"(year|yr|jahr|année|año)")),
    (Meaning.MONTH, re.compile(r"(month|mon|mo|monat|mois|mes)")),
    (Meaning.DAY, re.compile(r"(day|dd|tag|jour|dia|día)( of month)?")),
    (Meaning.TIME, re.compile(r"(time|hour|hh|hr|uhrzeit|zeit|heure|hora)( .*)?")),
    (
        Meaning.STATION,
        re.compile(
            r"(station|stations|stn|site|city|origin|location|device|logger|sensor)"
            r"( ?(id|name|no|number|serial))?|name"
        ),
    ),
)
_DATE: Final = re.compile(
    r".*\b(date|datum|datetime|timestamp|fecha|yyyymmdd|mess datum|messdatum|zeitstempel)\b.*"
    r"|data|time stamp|(local |valid )?time( (utc|gmt|local).*)?|valid|day"
)
_DEPTH: Final = re.compile(
    r"(?<![\w.])[-−]?(\d+(?:[.,]\d+)?)\s*(?:to|-|–)?\s*(\d+(?:[.,]\d+)?)?\s*"
    r"(cm|mm|m|in|inch|inches|ft|\")(?![a-z])",
    re.IGNORECASE,
)
_CM: Final = {"cm": 1.0, "mm": 0.1, "m": 100.0, "in": 2.54, "inch": 2.54, "inches": 2.54,
              "ft": 30.48, '"': 2.54}  # fmt: skip
_BARE_DEPTH: Final = re.compile(r"(?:soil|ts|st|temp\w*|boden\w*)[ _]*[-−]?([5-9]|\d{2,3})\b")
"""A number without a unit; the smallest are those of sensors."""
_TENTHS: Final = re.compile(r"0[.,]1|1/10|tenth|zehntel|10e-1")
_CELSIUS: Final = re.compile(r"[°º˚?�] ?c\b|\bdeg(rees?)? ?c|celsius|\bc\b|℃")
_FAHRENHEIT: Final = re.compile(r"[°º˚?�] ?f\b|\bdeg(rees?)? ?f|fahrenheit|\bf\b|℉")
_MM: Final = re.compile(r"\bmm\b|millimet|l/m2|l/m²|kg/m2")
_INCH: Final = re.compile(r"\binch(es)?\b|\bin\b|\"")


def column_of(index: int, heading: str, more: str = "") -> Column | None:
    """What a column is by its heading; None where it is nothing that is needed.

    >>> column_of(3, "Soil Temperature Observed -8in (degF)")  # doctest: +ELLIPSIS
    Column(index=3, ..., meaning=<Meaning.SOIL...>, unit=<Unit.FAHRENHEIT...>, depth_cm=20.32)

    Parameters
    ----------
    index
        Its place [from 0].
    more
        What a row of units or a legend says of it.
    """
    plain = folded(heading)
    whole = f"{plain} {folded(more)}".strip()
    meaning = _meaning(plain, whole)
    if meaning is None:
        return None
    depth = _depth_cm(f"{heading} {more}") if meaning is Meaning.SOIL else None
    return Column(
        index=index,
        heading=" ".join(heading.split()),
        meaning=meaning,
        unit=_unit(meaning, whole),
        depth_cm=depth,
    )


def folded(heading: str) -> str:
    """A heading in small letters, its underscores, brackets and camel case as spaces."""
    spaced = re.sub(r"(?<=[a-z])(?=[A-Z][a-z])", " ", heading)
    return " ".join(
        re.sub(r"[_()\[\]{};,:#*=|]+|(?<=\w)\.(?=\s|$)", " ", spaced).casefold().split()
    )


def _meaning(plain: str, whole: str) -> Meaning | None:
    for meaning, pattern in _PLAIN:
        if pattern.fullmatch(plain):
            return meaning
    if _OTHER.search(plain):
        return None
    is_soil = bool(_SOIL.search(whole)) and not re.search(r"ground level|above ground", whole)
    if _DATE.fullmatch(plain):
        return Meaning.DATE
    if _RAIN.search(whole) and not _OTHER.search(whole):
        return Meaning.RAIN
    if not (is_soil or _TEMPERATURE.search(whole)):
        return None
    if is_soil:
        return None if _LOW.search(plain) or _HIGH.search(plain) else Meaning.SOIL
    if _LOW.search(plain):
        return Meaning.LOW
    return Meaning.HIGH if _HIGH.search(plain) else Meaning.MEAN


def _unit(meaning: Meaning, whole: str) -> Unit | None:
    tenths = bool(_TENTHS.search(whole))
    if meaning in TEMPERATURES:
        said = re.sub(_DEPTH, " ", whole)
        if _FAHRENHEIT.search(said):
            return Unit.FAHRENHEIT
        if _CELSIUS.search(said):
            return Unit.TENTH_CELSIUS if tenths else Unit.CELSIUS
    if meaning is Meaning.RAIN:
        if _MM.search(whole):
            return Unit.TENTH_MM if tenths else Unit.MM
        if re.search(r"\bcm\b", whole):
            return Unit.CM
        if _INCH.search(whole):
            return Unit.INCH
    return None


def _depth_cm(text: str) -> float | None:
    """The depth a heading gives, the middle of a layer ``0 to 7 cm``."""
    text = text.replace("_", " ")
    if found := _DEPTH.search(text):
        ends = [float(part.replace(",", ".")) for part in found.groups()[:2] if part]
        depth = sum(ends) / len(ends) * _CM[found[3].casefold()]
    elif found := _BARE_DEPTH.search(text.casefold()):
        depth = float(found[1])
    else:
        return None
    return depth if 0.0 < depth <= 300.0 else None
