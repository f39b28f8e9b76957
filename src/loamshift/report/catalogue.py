"""Plants, materials and places as cards with every figure and its source, and as lists."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Final

from loamshift.domain.digits import stated
from loamshift.domain.evidence import Evidence
from loamshift.domain.letter import Align, Block, Column, Items, Letter, Paragraph, Section, Table
from loamshift.domain.material import Figure, Material, SizeClass
from loamshift.domain.material_comment import material_comment
from loamshift.domain.message import (
    Given,
    Listed,
    Message,
    amount,
    choice,
    message,
    percent,
    ph,
)
from loamshift.domain.place import Place
from loamshift.domain.plant import Plant
from loamshift.report.messages import say
from loamshift.report.sources import source_numbers, sources_section
from loamshift.report.words import Words

_US_CUP_L: Final = 0.2365882365
_FIGURES: Final = (
    *("elemental_s_frac", "fast_acid_molc_kg", "n_as_nh4_frac", "n_as_urea_frac"),
    *("n_as_no3_frac", "n_organic_frac", "caco3_eq_frac", "ash_alkalinity_molc_kg"),
    *("organic_acid_molc_kg", "salt_molc_kg", "water_frac", "bulk_density_kg_m3"),
    "intact_diameter_um",
)
"""Figures of a material that have a name of their own."""


def _columns(words: Words, *keys: str, right: tuple[str, ...] = ()) -> tuple[Column, ...]:
    """Columns by the keys of their titles; numbers lean on the right edge."""
    return tuple(
        Column(say(message(f"catalogue-{key}"), words), Align.RIGHT if key in right else Align.LEFT)
        for key in keys
    )


def list_letter(title: str, columns: tuple[Column, ...], rows: Sequence[tuple[str, ...]]) -> Letter:
    """Several matches as one table."""
    return Letter(title, "", (Section(None, (Table(columns, tuple(rows)),)),))


def plants_letter(plants: Sequence[Plant], *, words: Words) -> Letter:
    """A list of plants with their ranges [pH in water], in words."""
    rows = [
        (
            words.text(plant.name),
            plant.latin_name,
            words.measure(ph(plant.ph_low, high=plant.ph_high)),
            str(plant.n_sources),
            say(message("catalogue-weak"), words) if plant.is_weak else "",
        )
        for plant in plants
    ]
    columns = _columns(
        words, "plant", "latin", "ph-in-water", "sources", "evidence",
        right=("ph-in-water", "sources"),
    )  # fmt: skip
    return list_letter(say(message("catalogue-plants", n=len(plants)), words), columns, rows)


def _harm(plant: Plant) -> list[Message]:
    """Where injury is printed, in soil and in potting mixes."""
    return [
        message(
            "catalogue-harm",
            where=where,
            low=None if low is None else ph(low),
            high=None if high is None else ph(high),
        )
        for where, low, high in (
            ("soil", plant.harmful_low, plant.harmful_high),
            ("mix", plant.container_harmful_low, plant.container_harmful_high),
        )
        if low is not None or high is not None
    ]


def plant_letter(plant: Plant, *, words: Words) -> Letter:
    """One plant with every range printed for it, and its sources."""
    lead = message(
        "catalogue-grows",
        range=ph(plant.ph_low, high=plant.ph_high),
        n=plant.n_sources,
        lowest=ph(plant.lowest),
        highest=ph(plant.highest),
    )
    remarks: list[Message] = []
    if plant.tolerated_low is not None and plant.tolerated_high is not None:
        survives = ph(plant.tolerated_low, high=plant.tolerated_high)
        remarks.append(message("catalogue-survives", range=survives))
    remarks += _harm(plant)
    if plant.calcifuge:
        remarks.append(message("catalogue-calcifuge"))
    if not plant.ranges_agree:
        remarks.append(message("catalogue-disagree", ph=ph(plant.midpoint_spread)))
    if plant.tolerates_acid:
        remarks.append(message("catalogue-tolerates-acid"))
    if plant.is_weak:
        remarks.append(message("catalogue-weak-evidence"))
    if plant.note:
        remarks.append(message("verbatim", text=Given(words.text(plant.note))))
    if plant.synonyms:
        remarks.append(_also(plant.synonyms, words))
    numbers = source_numbers(source.source_key for source in plant.sources)
    rows = tuple(
        (
            words.measure(ph(source.ph_low, high=source.ph_high)),
            source.grade,
            source.evidence,
            numbers[source.source_key],
            words.text(_own_note(source.note, plant.note)),
        )
        for source in plant.sources
    )
    columns = _columns(words, "ph", "grade", "evidence", "source", "note", right=("source",))
    blocks: list[Block] = [Paragraph(say(lead, words))]
    if remarks:
        blocks.append(Items(tuple(say(remark, words) for remark in remarks)))
    return Letter(
        words.text(plant.name),
        f"{plant.latin_name}; {plant.group}" if plant.latin_name else plant.group,
        (
            Section(None, tuple(blocks)),
            Section(say(message("catalogue-ranges-heading"), words), (Table(columns, rows),)),
            _sources((source.source_key for source in plant.sources), words),
        ),
    )


def materials_letter(materials: Sequence[Material], *, words: Words) -> Letter:
    """A list of materials with what each brings, in words."""
    rows = [
        (
            words.text(material.key),
            words.text(material.group.value),
            words.listed([say(part, words) for part in _contains(material)]),
        )
        for material in materials
    ]
    columns = _columns(words, "material", "group", "contains")
    return list_letter(say(message("catalogue-materials", n=len(materials)), words), columns, rows)


def _contains(material: Material) -> list[Message]:
    """What of a material acts on the pH."""
    parts = [
        message("catalogue-share", share=percent(100.0 * share), what=what)
        for share, what in (
            (material.elemental_s_frac, "sulfur"),
            (material.n_as_nh4_frac, "ammonium"),
            (material.n_as_urea_frac, "urea"),
            (material.n_as_no3_frac, "nitrate"),
            (material.n_organic_frac, "organic"),
        )
        if share > 0.0
    ]
    if material.caco3_eq_frac > 0.0:
        share = percent(100.0 * material.caco3_eq_frac)
        parts.append(message("catalogue-neutralising", share=share))
    if material.fast_acid_molc_kg > 0.0:
        figure = Given(stated(material.fast_acid_molc_kg))
        parts.append(message("catalogue-acid-at-once", figure=figure))
    if material.ash_alkalinity_molc_kg > 0.0:
        figure = Given(stated(material.ash_alkalinity_molc_kg))
        parts.append(message("catalogue-base-on-decay", figure=figure))
    return parts or [message("catalogue-no-acid-no-lime")]


def material_letter(material: Material, *, words: Words) -> Letter:
    """One material with every figure, its range, evidence and source."""
    keys = [figure.source_key for figure in material.figures.values()]
    numbers = source_numbers(keys)
    rows = tuple(
        (_label(name, words), *_figure_cells(figure, numbers, words), words.text(figure.note))
        for name, figure in material.figures.items()
    )
    columns = _columns(
        words, "figure", "value", "range", "unit", "evidence", "source", "note",
        right=("value", "range", "source"),
    )  # fmt: skip
    remarks = [message("catalogue-contains-line", parts=Listed(tuple(_contains(material))))]
    if material.sizes:
        remarks.append(message("catalogue-sizes", sizes=_sizes(material.sizes)))
    if material.bulk_density_kg_m3 is not None:
        remarks.append(_cup(material))
    if material.synonyms:
        remarks.append(_also(material.synonyms, words))
    if material.cautions:  # codes keep their spelling: they are typed back
        codes = Given(", ".join(material.cautions))
        remarks.append(message("catalogue-cautions", codes=codes))
    blocks: list[Block] = [Paragraph(say(material_comment(material), words))]
    blocks.append(Items(tuple(say(remark, words) for remark in remarks)))
    group = Given(words.text(material.group.value))
    written = message("catalogue-written-as", group=group, key=Given(material.key))
    return Letter(
        words.material_name(material),
        say(written, words),
        (
            Section(None, tuple(blocks)),
            Section(say(message("catalogue-figures-heading"), words), (Table(columns, rows),)),
            _sources(keys, words),
        ),
    )


def _cup(material: Material) -> Message:
    density = material.bulk_density_kg_m3 or 0.0  # kg/m3 is g/L
    low = material.bulk_density_low_kg_m3 or density
    high = material.bulk_density_high_kg_m3 or density
    return message(
        "catalogue-cup",
        weight=amount(density * _US_CUP_L),
        range=amount(low * _US_CUP_L, high=high * _US_CUP_L),
    )


def _sizes(sizes: Sequence[SizeClass]) -> Listed:
    return Listed(
        tuple(
            message(
                "catalogue-size",
                share=percent(100.0 * size.mass_frac),
                low=Given(stated(size.low_um)),
                high=Given(stated(size.high_um)),
            )
            for size in sizes
        )
    )


def _label(name: str, words: Words) -> str:
    """The name of a figure of a material."""
    key = choice(name) if name in _FIGURES else "other"
    plain = Given(words.text(name.replace("_", " ")))
    return say(message("catalogue-figure-name", name=key, plain=plain), words)


def _figure_cells(
    figure: Figure, numbers: Mapping[str, str], words: Words
) -> tuple[str, str, str, str, str]:
    ends = [f"{end:g}" for end in (figure.low, figure.high) if end is not None]
    whole = dict(zip(("low", "high"), ends, strict=False))
    spread = words.message("unit-range", whole) if len(ends) == 2 else "".join(ends)
    return (
        f"{figure.value:g}",
        spread,
        figure.unit,
        figure.evidence.value,
        numbers[figure.source_key],
    )


def places_letter(places: Sequence[Place], *, words: Words) -> Letter:
    """A list of places with their year, in words."""
    rows = [
        (
            place.name,
            place.country,
            f"{place.latitude:.1f}",
            words.temperature(sum(place.air_temp_c) / 12.0),
            words.water_depth(sum(place.rain_mm)),
        )
        for place in places
    ]
    columns = _columns(
        words, "place", "country", "latitude", "mean-air", "rain-year",
        right=("latitude", "mean-air", "rain-year"),
    )  # fmt: skip
    return list_letter(say(message("catalogue-places", n=len(places)), words), columns, rows)


def place_letter(place: Place, *, words: Words) -> Letter:
    """One place month by month, with where the figures come from."""
    rows = tuple(
        (words.month(month), words.temperature(temp), words.water_depth(rain))
        for month, (temp, rain) in enumerate(
            zip(place.air_temp_c, place.rain_mm, strict=True), start=1
        )
    )
    columns = _columns(words, "month", "air", "rain", right=("air", "rain"))
    position = message(
        "catalogue-position",
        latitude=Given(f"{place.latitude:.2f}"),
        longitude=None if place.longitude is None else Given(f"{place.longitude:.2f}"),
        height=None if place.elevation_m is None else Given(f"{place.elevation_m:.0f}"),
    )
    where = say(position, words)
    return Letter(
        place.name,
        f"{place.country}; {where}" if place.country else where,
        (
            Section(None, (Paragraph(say(place.basis, words)), Table(columns, rows))),
            _sources((place.source_key,), words),
        ),
    )


def _also(synonyms: Sequence[str], words: Words) -> Message:
    names = "; ".join(dict.fromkeys(words.text(name) for name in synonyms))
    return message("catalogue-also", names=Given(names))


def _own_note(note: str, said: str) -> str:
    """What a source's note adds to what was said of the plant already."""
    return note.removeprefix(said).strip(" ;") if said else note


def _sources(keys: Iterable[str], words: Words) -> Section:
    return sources_section(keys, heading=say(message("catalogue-sources-heading"), words))


def evidence_said(evidence: Evidence, words: Words) -> str:
    """What a mark of evidence means, in words."""
    return say(message("catalogue-evidence-mark", mark=choice(evidence.value)), words)
