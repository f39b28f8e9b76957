"""The head of the letter: whose bed it is, where, and what was read there."""

from __future__ import annotations

from datetime import date

from loamshift.domain.answer import Answer
from loamshift.domain.case import Case, SoilEntry
from loamshift.domain.message import Given, Listed, Measure, Message, Quantity, message, percent, ph
from loamshift.domain.message import depth as depth_of
from loamshift.domain.ph import PhMethod, PhReading
from loamshift.domain.soil import Medium
from loamshift.report.messages import say
from loamshift.report.words import Words

_MOST_OTHERS = 2
"""So many further readings of a report stand in the head [count]."""
METRE_CM = 100.0
"""A ring as wide as this is told in metres or feet [cm]."""
_SOLUTIONS = {
    PhMethod.PASTE: "method-paste",
    PhMethod.CACL2: "method-cacl2",
    PhMethod.KCL: "method-kcl",
    PhMethod.PROBE: "method-probe",
    PhMethod.STRIP: "method-strip",
    PhMethod.UNKNOWN: "method-unknown",
}
"""Messages of the methods; readings in water give their ratio."""


def subtitle(answer: Answer, case: Case, *, words: Words) -> str:
    """Date, place, soil, readings and fizz in one line of text."""
    return told_of(case, day=answer.today, words=words)


def told_of(case: Case, *, day: date, words: Words) -> str:
    """A day, and all that somebody said of the bed, in one line."""
    parts = [
        words.date(day),
        case.place.name if case.place is not None else _said(_unknown_place(case), words),
        _said(_bed(case), words),
        _said(_soil(case.soil), words),
        *_readings(case, words),
        _said(_lime(case.soil), words),
    ]
    return " ".join(f"{part}." for part in parts if part)


def method_said(method: PhMethod) -> Message:
    """A method as it follows a reading: ``in water 1:1``."""
    if method in _SOLUTIONS:
        return message(_SOLUTIONS[method])
    return message("method-water", ratio=Given(method.value.removeprefix("water ")))


def reading_in_force(case: Case) -> PhReading | None:
    """The reading that speaks for the bed: the newest of a case, laboratory before probe.

    One without a date is of the day of its report, or else of today; of one day the last counts.
    None where nobody read the pH.
    """
    report = [*([case.soil.ph] if case.soil.ph is not None else []), *case.soil.other_ph]
    dated = [(reading.taken or case.soil.sampled or case.today, reading) for reading in report]
    dated += [(reading.taken or case.today, reading) for reading in case.readings]
    careful = [pair for pair in dated if not pair[1].method.is_rough]
    newest = max(reversed(careful or dated), key=lambda pair: pair[0], default=None)
    return None if newest is None else newest[1]


def _said(what: Message | None, words: Words) -> str:
    return "" if what is None else say(what, words)


def _unknown_place(case: Case) -> Message | None:
    """That the place somebody named is in no list; None where nobody named one."""
    for note in case.notes_on("place.name"):
        if isinstance(note, Message) and "given" in note.values:
            return message("head-place-unknown", given=note.values["given"])
    return None


def _bed(case: Case) -> Message | None:
    kind, count = case.bed.kind.value, case.bed.count
    plants, ring = case.bed.plants, case.bed.treated_diameter_cm
    if plants is not None and ring is not None:
        across = depth_of(ring) if ring < METRE_CM else Measure(Quantity.LENGTH, ring / METRE_CM)
        return message("head-rings", plants=plants, diameter=across)
    area = case.bed.area_m2
    if area is None:
        return message("head-beds", kind=kind, count=count) if count > 1 else None
    return message("head-bed", kind=kind, count=count, area=Measure(Quantity.AREA, area))


def _soil(soil: SoilEntry) -> Message | None:
    if soil.medium is not Medium.MINERAL:
        return message("head-medium", medium=soil.medium.value.replace(" ", "-"))
    shares: list[Message] = []
    if soil.clay_pct is not None:
        shares.append(message("head-clay", share=percent(soil.clay_pct)))
    if soil.organic_matter_pct is not None:
        shares.append(message("head-organic-matter", share=percent(soil.organic_matter_pct)))
    elif soil.organic_carbon_pct is not None:
        shares.append(message("head-organic-carbon", share=percent(soil.organic_carbon_pct)))
    texture = None if soil.texture is None else message(_texture(soil.texture.name))
    if texture is None and not shares:
        return None
    listed = Listed(tuple(shares)) if shares else None
    return message("head-soil", texture=texture, shares=listed)


def _texture(name: str) -> str:
    return f"texture-{name.lower().replace(' ', '-')}"


def _readings(case: Case, words: Words) -> list[str]:
    first, newest = case.soil.ph, reading_in_force(case)
    if newest is None:
        return []
    told = [] if first is None else [first]
    told += case.soil.other_ph[:_MOST_OTHERS]
    if all(newest is not one for one in told):
        told.append(newest)
    return [_reading(one, case.soil, words) for one in told]


def _reading(reading: PhReading, soil: SoilEntry, words: Words) -> str:
    own = reading is soil.ph or any(reading is one for one in soil.other_ph)
    deep = reading.depth_cm or (soil.sample_depth_cm if own else None)
    taken = reading.taken or (soil.sampled if own else None)
    known = reading.method is not PhMethod.UNKNOWN
    read = message(
        "head-reading" if known else "head-reading-unknown",
        ph=ph(reading.ph),
        method=method_said(reading.method),
    )
    parts = [say(read, words)]
    if deep is not None:
        parts.append(say(message("head-top", depth=depth_of(as_ruled_cm(deep))), words))
    if taken is not None:
        parts.append(say(message("head-tested", day=taken), words))
    return ", ".join(parts)


def as_ruled_cm(depth_cm: float) -> float:
    """A depth as a ruler tells it: 6 in are 15 cm, not 15.2 [cm]."""
    return round(2.0 * depth_cm) / 2.0 if depth_cm >= 1.0 else depth_cm


def _lime(soil: SoilEntry) -> Message | None:
    if soil.carbonate_pct is not None:
        if soil.carbonate_pct == 0.0:
            return message("head-no-free-lime")
        return message("head-free-lime", share=percent(soil.carbonate_pct))
    if soil.fizz is None:
        return None
    acid = None if soil.fizz_acid is None else soil.fizz_acid.value.lower()
    return message("head-fizz", fizz=soil.fizz.value, acid=acid)
