"""How a number, a date or a name is said to this reader: the one formatter.

Only display: nothing here is ever computed with. Digits follow how sure anybody can be, two or
three of them. Units, and the words around a figure, stand in the message files; months and the
marks inside a number come with the language.
"""

from __future__ import annotations

import datetime
import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cache
from typing import Final

from babel import Locale
from babel.dates import format_date, get_month_names
from babel.lists import format_list
from babel.numbers import get_decimal_symbol, get_group_symbol

from loamshift import units
from loamshift.domain.answer import Band
from loamshift.domain.digits import sensible, stated, worked
from loamshift.domain.material import Material
from loamshift.domain.message import Measure
from loamshift.domain.message import Quantity as Quantity
from loamshift.report.messages.book import AMERICAN, BRITISH, Book, book_of, languages
from loamshift.report.scales import scale_for, scales_of
from loamshift.report.spelling import spell, with_capitals
from loamshift.tables.materials import load_materials

LANGUAGES: Final[Mapping[str, str]] = {"uk": BRITISH, "us": AMERICAN}
"""Languages by the spelling a reader asks for; another language goes by its own name."""
GROUNDS: Final = ("lawn", "field", "container")
"""Beds that have words of their own; the rates of the first two are said for larger areas."""
_DATES: Final[Mapping[str, str]] = {BRITISH: "d MMMM y", AMERICAN: "MMMM d, y"}
_DAYS: Final[Mapping[str, str]] = {BRITISH: "d MMMM", AMERICAN: "MMMM d"}
_STATED: Final = (
    Quantity.AREA,
    Quantity.DEPTH,
    Quantity.WATER_DEPTH,
    Quantity.PERCENT,
    Quantity.NUMBER,
)
"""Chosen or measured out by somebody, so said without trailing zeros."""
_WHOLE: Final = (Quantity.WEEKS, Quantity.ALKALINITY)
_TEN_CENTS: Final = 0.095
_FINEST: Final = 6
"""As many digits as two amounts get that would else read the same [count]."""
MONTHS: Final = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
_IN_BRACKETS: Final = re.compile(r" \([^)]*\)")
_KEPT_CAPITALS: Final = ("Epsom",)


@dataclass(frozen=True, slots=True)
class Words:
    """Language (``uk``, ``us`` or another), units (``metric`` or ``us``) and ground of a reader.

    Examples
    --------
    >>> Words("uk", "metric").rate(97.6)
    '98 g/m²'
    >>> Words("us", "us").rate(97.6)
    '2.0 lb/100 sq ft'
    >>> Words("us", "us", "lawn").rate(97.6)
    '20 lb/1,000 sq ft'
    """

    spelling: str = "uk"
    units: str = "metric"
    ground: str = "bed"

    def __post_init__(self) -> None:
        """Refuse an unknown language or system of units."""
        if self.spelling not in LANGUAGES and self.spelling not in languages():
            raise ValueError(f"spelling is uk or us, not {self.spelling!r}")
        if self.units not in ("metric", "us"):
            raise ValueError(f"units are metric or us, not {self.units!r}")

    def on(self, ground: str) -> Words:
        """The same reader, told of a bed of this kind: lawn and field have rates of their own."""
        return replace(self, ground=ground if ground in GROUNDS else "bed")

    @property
    def language(self) -> str:
        """The language, as a page declares it: ``en-GB``."""
        return LANGUAGES.get(self.spelling, self.spelling)

    @property
    def book(self) -> Book:
        """The messages of this language."""
        return book_of(self.language)

    def message(self, key: str, values: Mapping[str, str | int | float]) -> str:
        """A message by its key, its values as texts and counts; units and ground are given."""
        return self.book.word(key, {"units": self.units, "ground": self.ground, **values})

    # -- numbers ---------------------------------------------------------------------------

    def measure(self, measure: Measure) -> str:
        """A number or a range of its kind, with its unit."""
        if measure.kind is Quantity.IN_100:
            return self.in_100(measure.value)
        if measure.kind is Quantity.TIMES and 1.0 < measure.value < 1.05:
            return self.message("times-just-over", {})
        if measure.against is not None:
            return self._beside(measure.value, measure.against, measure.kind)
        if measure.high is None:
            (text,), unit = self._in_one_unit((measure.value,), measure.kind, best=measure.best)
            return self._joined(text, unit)
        (low, high), unit = self._in_one_unit(
            (measure.value, measure.high), measure.kind, best=measure.best
        )
        if low == high:
            return self._joined(low, unit)
        return self.message("unit-range", {"low": low, "high": self._joined(high, unit)})

    def say(self, value: float, quantity: Quantity) -> str:
        """A number of this kind with its unit, in sensible digits.

        Parameters
        ----------
        value
            The number [internal unit of the quantity].
        """
        texts, unit = self._in_one_unit((value,), quantity)
        return self._joined(texts[0], unit)

    def band(self, band: Band, quantity: Quantity) -> str:
        """The likely range of a quantity: ``60 to 140 g/m²``.

        Parameters
        ----------
        band
            Lower, middle and upper value [internal unit of the quantity].
        """
        (low, high), unit = self._in_one_unit((band.lo90, band.hi90), quantity)
        if low == high:
            return self.message("unit-about", {"figure": self._joined(low, unit)})
        return self.message("unit-range", {"low": low, "high": self._joined(high, unit)})

    def rate(self, rate_g_m2: float) -> str:
        """A rate of product [g/m2] as ``98 g/m²`` or ``2.0 lb/100 sq ft``."""
        return self.say(rate_g_m2, Quantity.RATE)

    def worked(self, value: float) -> str:
        """A number within a sum [any unit], in digits enough to work it out again."""
        return self._marks(worked(value))

    def rate_oz_yd2(self, rate_g_m2: float) -> str:
        """A rate of product [g/m2] in the older garden unit, ``2.9 oz/yd²``."""
        return self._joined(self._marks(sensible(units.oz_yd2_from_g_m2(rate_g_m2))), "oz-yd2")

    def amount(self, amount_g: float) -> str:
        """An amount of product [g] as ``2.0 kg`` or ``4.4 lb``."""
        return self.say(amount_g, Quantity.AMOUNT)

    def area(self, area_m2: float) -> str:
        """An area [m2] as ``20 m²`` or ``215 sq ft``."""
        return self.say(area_m2, Quantity.AREA)

    def depth(self, depth_cm: float) -> str:
        """A depth of soil [cm] as ``15 cm`` or ``6 in``."""
        return self.say(depth_cm, Quantity.DEPTH)

    def temperature(self, temp_c: float) -> str:
        """A temperature [degC] as ``10°C`` or ``50°F``."""
        return self.say(temp_c, Quantity.TEMPERATURE)

    def water_depth(self, depth_mm: float) -> str:
        """A depth of water [mm] as ``25 mm`` or ``1 in``."""
        return self.say(depth_mm, Quantity.WATER_DEPTH)

    def volume(self, volume_l: float) -> str:
        """A volume [L] as ``100 L`` or ``26 gal``."""
        return self.say(volume_l, Quantity.VOLUME)

    def ph(self, ph: float) -> str:
        """A pH [pH] to one place, as readings deserve."""
        return self._marks(f"{ph:.1f}")

    def percent(self, share_frac: float) -> str:
        """A share [0-1] in per cent."""
        return self.say(share_frac, Quantity.SHARE)

    def in_100(self, share_frac: float) -> str:
        """A share [0-1] as a count of a hundred: ``about 28``, ``fewer than 1``."""
        if share_frac < 0.01:
            return self.message("share-fewer", {})
        if share_frac > 0.99:
            return self.message("share-more", {})
        return self.message("share-about", {"n": round(100.0 * share_frac)})

    def money(self, value: float, currency: str | None) -> str:
        """A price [units of the currency] with two places, and the currency's name."""
        return self._marks(f"{value:.2f}") + (f" {currency}" if currency else "")

    def unit_price(self, value: float, currency: str | None) -> str:
        """A price by weight [units of the currency]: a third place below ten cents."""
        if value >= _TEN_CENTS:
            return self.money(value, currency)
        return self._marks(f"{value:.3f}") + (f" {currency}" if currency else "")

    # -- words -----------------------------------------------------------------------------

    def date(self, day: datetime.date) -> str:
        """A date as ``20 April 2026`` or ``April 20, 2026``."""
        pattern = _DATES.get(self.language, "long")
        return format_date(day, pattern, locale=_locale(self.language))

    def day(self, day: datetime.date) -> str:
        """A day of any year as ``20 April`` or ``April 20``."""
        pattern = _DAYS.get(self.language, "d MMMM")
        return format_date(day, pattern, locale=_locale(self.language))

    def month(self, month: int, *, short: bool = False) -> str:
        """A month by its number [1-12], whole or in three letters."""
        locale = _locale(self.language)
        names = get_month_names("abbreviated" if short else "wide", locale=locale)
        name = str(names[month])
        return name[:3] if short else name

    def text(self, text: str) -> str:
        """A name or a text in this reader's spelling, with its capitals."""
        if self.spelling not in LANGUAGES:
            return with_capitals(text)
        return with_capitals(spell(text, self.spelling))

    def plant(self, name: str) -> str:
        """A plant by its name in the table as this reader calls it."""
        key = f"plant-{name.casefold().replace(' ', '-')}"
        return self.message(key, {}) if key in self.book else self.text(name)

    def product(self, key: str) -> str:
        """A material by its key inside a sentence: ``sulphur powder``.

        Its other names in brackets are left out; a form behind a comma goes into them.
        """
        material = load_materials().get(key)
        if material is None:  # known by its label: an own name, or its figures behind a kind
            kind, _, figures = key.partition(" (")
            return f"{self.product(kind)} ({figures}" if kind in load_materials() else key
        name = self.material_name(material)
        name, comma, form = _IN_BRACKETS.sub("", name).partition(", ")
        if not name.startswith(_KEPT_CAPITALS) and not name[1:2].isupper():
            name = name[:1].lower() + name[1:]
        return f"{name} ({form})" if comma else name

    def material_name(self, material: Material) -> str:
        """The name of a material as this reader says it."""
        name = material.name_us if self.spelling == "us" else material.name_uk
        return self.text(name)

    def listed(self, parts: Sequence[str], *, either: bool = False) -> str:
        """``a, b and c`` from parts, or with ``or`` before the last."""
        locale = _locale(self.language)
        return format_list(list(parts), style="or" if either else "standard", locale=locale)

    def _beside(self, value: float, other: float, quantity: Quantity) -> str:
        """A number in digits that tell it from another of its kind."""
        for digits in range(2, _FINEST + 1):
            finer = None if digits == 2 else _to_digits(digits)
            (text, against), unit = self._in_one_unit((value, other), quantity, finer)
            if text != against or value == other:
                break
        return self._joined(text, unit)

    def _joined(self, text: str, unit: str) -> str:
        return self.message(f"unit-{unit}", {"n": 1 if text == "1" else text})

    def _marks(self, text: str) -> str:
        """Digits with the marks of the language: a point, a comma, a space; and a minus sign."""
        text = text.replace("-", "−")
        return (
            text.translate(_mark_table(self.language)) if self.spelling not in LANGUAGES else text
        )

    def _in_one_unit(
        self,
        values: Sequence[float],
        quantity: Quantity,
        finer: Callable[[float], str] | None = None,
        *,
        best: float | None = None,
    ) -> tuple[tuple[str, ...], str]:
        if quantity is Quantity.TEMPERATURE:
            convert: Callable[[float], float] = units.f_from_c if self.units == "us" else float
            unit = "deg-f" if self.units == "us" else "deg-c"
            return tuple(self._marks(f"{convert(value):z.0f}") for value in values), unit
        scales = scales_of(quantity, system=self.units, ground=self.ground)
        scale = scale_for([abs(value) for value in (values if best is None else (best,))], scales)
        digits = finer or self._digits_of(quantity)
        return tuple(self._marks(digits(value * scale.factor)) for value in values), scale.unit

    def _digits_of(self, quantity: Quantity) -> Callable[[float], str]:
        if quantity is Quantity.PH:
            return "{:.1f}".format
        if quantity is Quantity.PH_MEAN:
            return "{:z.2f}".format
        if quantity in _WHOLE:
            return "{:.0f}".format
        if quantity in (Quantity.DEPTH, Quantity.WATER_DEPTH) and self.units == "us":
            return _inches
        if quantity in (Quantity.VOLUME, Quantity.WATER_RATE):
            return _volume_digits
        if quantity is Quantity.SHARE:
            return _share_digits
        if quantity is Quantity.TIMES:
            return _times_digits
        return stated if quantity in _STATED else sensible


@cache
def _locale(language: str) -> Locale:
    return Locale.parse(language, sep="-")


@cache
def _mark_table(language: str) -> dict[int, str]:
    locale = _locale(language)
    return {ord("."): get_decimal_symbol(locale), ord(","): get_group_symbol(locale)}


def _to_digits(digits: int) -> Callable[[float], str]:
    def said(value: float) -> str:
        whole = len(str(int(abs(value)))) if abs(value) >= 1.0 else 1
        return f"{value:,.{max(0, digits - whole)}f}"

    return said


def _inches(depth_in: float) -> str:
    """Half inches, as spades and rulers have them; 15 cm is 6 in, 25 mm of water 1 in."""
    return stated(round(2.0 * depth_in) / 2.0) if depth_in >= 0.75 else stated(depth_in)


def _volume_digits(volume: float) -> str:
    text = sensible(volume)
    return text.rstrip("0").rstrip(".") if "." in text else text


def _share_digits(percent: float) -> str:
    return f"{percent:.0f}" if abs(percent) >= 0.95 or percent == 0.0 else f"{percent:.1f}"


def _times_digits(ratio: float) -> str:
    return f"{ratio:.1f}" if ratio < 9.95 else f"{ratio:.0f}"
