"""The head of the letter: whose bed it is, where, and what was read there."""

from __future__ import annotations

from datetime import date

from loamshift.domain.answer import Answer
from loamshift.domain.case import Case, SoilEntry
from loamshift.domain.digits import stated
from loamshift.domain.ph import PhMethod, PhReading
from loamshift.domain.soil import Fizz, FizzAcid, Medium
from loamshift.report.letter_words import raised
from loamshift.report.words import Words

METHODS = {
    PhMethod.PASTE: "in saturated paste",
    PhMethod.CACL2: "in calcium chloride",
    PhMethod.KCL: "in potassium chloride",
    PhMethod.PROBE: "by stab probe",
    PhMethod.STRIP: "by test strip",
    PhMethod.UNKNOWN: "method not stated",
}
"""How each method is said after a reading; readings in water give their ratio."""

_FIZZ = {
    Fizz.NONE: "no fizz",
    Fizz.SLIGHT: "a slight fizz",
    Fizz.MODERATE: "a moderate fizz",
    Fizz.STRONG: "a strong fizz",
    Fizz.EXTREME: "a violent fizz",
}
_FIZZ_ACIDS = {FizzAcid.HCL: "hydrochloric acid", FizzAcid.VINEGAR: "vinegar"}


def subtitle(answer: Answer, case: Case, *, words: Words) -> str:
    """Date, place, soil, readings and fizz in one line of text.

    Parameters
    ----------
    answer
        For the date of the advice [object].
    case
        What the user said of the bed [object].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    str
        Short sentences; what nobody said is left out [text].
    """
    return told_of(case, day=answer.today, words=words)


def told_of(case: Case, *, day: date, words: Words) -> str:
    """A day, and all that somebody said of the bed, in one line.

    Parameters
    ----------
    case
        What the user said of the bed [object].
    day
        The day that the line begins with [date].
    words
        Spelling and units of the reader [object].

    Returns
    -------
    str
        Short sentences; what nobody said is left out [text].
    """
    parts = [
        words.date(day),
        case.place.name if case.place is not None else "",
        _bed(case, words),
        _soil(case.soil),
        _readings(case, words),
        _lime(case.soil),
    ]
    return words.text(" ".join(raised(part) + "." for part in parts if part))


def method_said(method: PhMethod) -> str:
    """A method [enumeration] as it follows a reading: ``in water 1:1`` [text]."""
    return METHODS.get(method, f"in {method.value}")


def reading_in_force(case: Case) -> PhReading | None:
    """The reading that speaks for the bed: the newest of a case [object], laboratory before probe.

    One without a date is of the day of its report, or else of today; of one day the last counts.
    None where nobody read the pH.
    """
    report = [*([case.soil.ph] if case.soil.ph is not None else []), *case.soil.other_ph]
    dated = [(reading.taken or case.soil.sampled or case.today, reading) for reading in report]
    dated += [(reading.taken or case.today, reading) for reading in case.readings]
    careful = [pair for pair in dated if not pair[1].method.is_rough]
    newest = max(reversed(careful or dated), key=lambda pair: pair[0], default=None)
    return None if newest is None else newest[1]


def _bed(case: Case, words: Words) -> str:
    area, count = case.bed.area_m2, case.bed.count
    kind = case.bed.kind.value
    name = "bed" if kind == "ground" else "raised bed" if kind == "raised" else kind
    if kind == "container":
        name = "pot"
    plants, ring = case.bed.plants, case.bed.treated_diameter_cm
    if plants is not None and ring is not None:
        around = "the plant" if plants == 1 else f"each of {plants} plants"
        return f"a ring {words.depth(ring)} across round {around}"
    if area is None:
        return f"{count} {name}s" if count > 1 else ""
    if count > 1:
        return f"{count} {name}s of {words.area(area)} each"
    return f"{name} of {words.area(area)}"


def _soil(soil: SoilEntry) -> str:
    if soil.medium is not Medium.MINERAL:
        return soil.medium.value
    name = soil.texture.name.lower() if soil.texture is not None else ""
    shares = []
    if soil.clay_pct is not None:
        shares.append(f"{stated(soil.clay_pct)} % clay")
    if soil.organic_matter_pct is not None:
        shares.append(f"{stated(soil.organic_matter_pct)} % organic matter")
    elif soil.organic_carbon_pct is not None:
        shares.append(f"{stated(soil.organic_carbon_pct)} % organic carbon")
    if not shares:
        return name
    said = " and ".join(shares)
    return f"{name} with {said}" if name else said


def _readings(case: Case, words: Words) -> str:
    first, newest = case.soil.ph, reading_in_force(case)
    if newest is None:
        return ""
    parts = [_reading(first, case.soil, words)] if first is not None else []
    if first is None or newest is not first:
        parts.append(_reading(newest, case.soil, words))
    return "; ".join(parts)


def _reading(reading: PhReading, soil: SoilEntry, words: Words) -> str:
    own = reading is soil.ph
    depth = reading.depth_cm or (soil.sample_depth_cm if own else None)
    taken = reading.taken or (soil.sampled if own else None)
    text = f"pH {words.ph(reading.ph)} {method_said(reading.method)}"
    if reading.method is PhMethod.UNKNOWN:
        text = f"pH {words.ph(reading.ph)}, {METHODS[PhMethod.UNKNOWN]}"
    if depth is not None:
        text += f", top {words.depth(_half_cm(depth))}"
    if taken is not None:
        text += f", tested {words.date(taken)}"
    return text


def _half_cm(depth_cm: float) -> float:
    """A depth as a ruler tells it: 6 in are 15 cm, not 15.2."""
    return round(2.0 * depth_cm) / 2.0 if depth_cm >= 1.0 else depth_cm


def _lime(soil: SoilEntry) -> str:
    if soil.carbonate_pct is not None:
        if soil.carbonate_pct == 0.0:
            return "no free lime"
        return f"{stated(soil.carbonate_pct)} % free lime"
    if soil.fizz is None:
        return ""
    acid = "acid" if soil.fizz_acid is None else _FIZZ_ACIDS[soil.fizz_acid]
    return f"{_FIZZ[soil.fizz]} with {acid}"
