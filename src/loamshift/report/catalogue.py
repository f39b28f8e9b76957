"""Plants, materials and places as cards with every figure and its source, and as lists."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from loamshift.domain.digits import stated
from loamshift.domain.evidence import Evidence
from loamshift.domain.letter import Align, Block, Column, Items, Letter, Paragraph, Section, Table
from loamshift.domain.material import Figure, Material, SizeClass
from loamshift.domain.material_comment import material_comment
from loamshift.domain.place import Place
from loamshift.domain.plant import Plant
from loamshift.report.messages import say
from loamshift.report.sources import source_numbers, sources_section
from loamshift.report.words import MONTHS, Quantity, Words

_SHOW_LABELS = {
    "elemental_s_frac": "elemental sulfur",
    "fast_acid_molc_kg": "acid of aluminium, iron or mineral acid, within days",
    "n_as_nh4_frac": "nitrogen as ammonium",
    "n_as_urea_frac": "nitrogen as urea",
    "n_as_no3_frac": "nitrogen as nitrate",
    "n_organic_frac": "nitrogen in organic form",
    "caco3_eq_frac": "neutralising value against CaCO3",
    "ash_alkalinity_molc_kg": "base set free as it decays",
    "organic_acid_molc_kg": "organic acid, destroyed again by microbes",
    "salt_molc_kg": "soluble salt",
    "water_frac": "water",
    "bulk_density_kg_m3": "weight of a cubic metre, loose",
    "intact_diameter_um": "prill or pastille before it breaks up",
}


def list_letter(title: str, columns: tuple[Column, ...], rows: Sequence[tuple[str, ...]]) -> Letter:
    """Several matches as one table.

    Parameters
    ----------
    title
        What was looked for [text].
    columns
        Titles and edges [objects].
    rows
        One row per match [text].

    Returns
    -------
    Letter
        A page with the table and how to open one row [object].
    """
    return Letter(title, "", (Section(None, (Table(columns, tuple(rows)),)),))


def plants_letter(plants: Sequence[Plant], *, words: Words) -> Letter:
    """A list of plants [objects] with their ranges [pH in water], in words [object]."""
    rows = [
        (
            words.text(plant.name),
            plant.latin_name,
            f"{words.ph(plant.ph_low)} to {words.ph(plant.ph_high)}",
            str(plant.n_sources),
            "weak" if plant.is_weak else "",
        )
        for plant in plants
    ]
    columns = (
        Column("plant"),
        Column("Latin name"),
        Column("pH in water", Align.RIGHT),
        Column("sources", Align.RIGHT),
        Column("evidence"),
    )
    return list_letter(_count(len(plants), "plant"), columns, rows)


def _harm(plant: Plant, words: Words) -> list[str]:
    """Where injury is printed, in soil and in potting mixes."""
    sentences = []
    for place, low, high in (
        ("in soil", plant.harmful_low, plant.harmful_high),
        ("in soilless potting mixes", plant.container_harmful_low, plant.container_harmful_high),
    ):
        sides = [
            *([f"below pH {words.ph(low)}"] if low is not None else []),
            *([f"above pH {words.ph(high)}"] if high is not None else []),
        ]
        if sides:
            sentences.append(f"Harm is reported {place} {' and '.join(sides)}.")
    return sentences


def plant_letter(plant: Plant, *, words: Words) -> Letter:
    """One plant [object] with every range printed for it, and its sources [object]."""
    lead = (
        f"Grows well from pH **{words.ph(plant.ph_low)} to {words.ph(plant.ph_high)}** (in "
        f"water), by {_count(plant.n_sources, 'independent source')}; the lowest "
        f"printed is {words.ph(plant.lowest)}, the highest {words.ph(plant.highest)}."
    )
    remarks = []
    if plant.tolerated_low is not None and plant.tolerated_high is not None:
        remarks.append(
            f"Survives from about {words.ph(plant.tolerated_low)} to "
            f"{words.ph(plant.tolerated_high)}."
        )
    remarks += _harm(plant, words)
    if plant.calcifuge:
        remarks.append("Lime-hating: free lime in the soil makes it sicken at any pH reading.")
    if not plant.ranges_agree:
        remarks.append(
            f"The sources disagree: the midpoints of their ranges lie up to "
            f"{plant.midpoint_spread:.1f} pH apart."
        )
    if plant.tolerates_acid:
        remarks.append("It tolerates acid soil but does not need it: no need to acidify for it.")
    if plant.is_weak:
        remarks.append("Weak evidence: this range alone never starts an acidifying or liming plan.")
    if plant.note:
        remarks.append(plant.note)
    if plant.synonyms:
        remarks.append(_also(plant.synonyms, words))
    numbers = source_numbers(source.source_key for source in plant.sources)
    rows = tuple(
        (
            f"{words.ph(source.ph_low)} to {words.ph(source.ph_high)}",
            source.grade,
            source.evidence,
            numbers[source.source_key],
            words.text(_own_note(source.note, plant.note)),
        )
        for source in plant.sources
    )
    table = Table(
        (
            Column("pH"),
            Column("grade"),
            Column("evidence"),
            Column("source", Align.RIGHT),
            Column("note"),
        ),
        rows,
    )
    blocks: list[Block] = [Paragraph(words.text(lead))]
    if remarks:
        blocks.append(Items(tuple(words.text(remark) for remark in remarks)))
    return Letter(
        words.text(plant.name),
        f"{plant.latin_name}; {plant.group}" if plant.latin_name else plant.group,
        (
            Section(None, tuple(blocks)),
            Section("Ranges as printed", (table,)),
            sources_section(source.source_key for source in plant.sources),
        ),
    )


def materials_letter(materials: Sequence[Material], *, words: Words) -> Letter:
    """A list of materials [objects] with what each brings, in words [object]."""
    rows = [
        (
            words.text(material.key),
            words.text(material.group.value),
            words.text(_brings(material)),
        )
        for material in materials
    ]
    columns = (Column("material"), Column("group"), Column("brings"))
    return list_letter(_count(len(materials), "material"), columns, rows)


def _brings(material: Material) -> str:
    parts = []
    for share, what in (
        (material.elemental_s_frac, "S"),
        (material.n_as_nh4_frac, "N as ammonium"),
        (material.n_as_urea_frac, "N as urea"),
        (material.n_as_no3_frac, "N as nitrate"),
        (material.n_organic_frac, "organic N"),
    ):
        if share > 0.0:
            parts.append(f"{stated(100.0 * share)} % {what}")
    if material.caco3_eq_frac > 0.0:
        parts.append(f"neutralising value {stated(100.0 * material.caco3_eq_frac)} %")
    if material.fast_acid_molc_kg > 0.0:
        parts.append(f"{stated(material.fast_acid_molc_kg)} mol acid/kg at once")
    if material.ash_alkalinity_molc_kg > 0.0:
        parts.append(f"{stated(material.ash_alkalinity_molc_kg)} mol base/kg on decay")
    return ", ".join(parts) or "no acid and no lime"


def material_letter(material: Material, *, words: Words) -> Letter:
    """One material [object] with every figure, its range, evidence and source [object]."""
    keys = [figure.source_key for figure in material.figures.values()]
    numbers = source_numbers(keys)
    rows = tuple(
        (words.text(_label(name)), *_figure_cells(figure, numbers), words.text(figure.note))
        for name, figure in material.figures.items()
    )
    table = Table(
        (
            Column("figure"),
            Column("value", Align.RIGHT),
            Column("range", Align.RIGHT),
            Column("unit"),
            Column("evidence"),
            Column("source", Align.RIGHT),
            Column("note"),
        ),
        rows,
    )
    remarks = [f"Brings: {_brings(material)}."]
    if material.sizes:
        remarks.append(f"Particle sizes: {_sizes(material.sizes)}.")
    if material.bulk_density_kg_m3 is not None:
        remarks.append(_cup(material, words))
    if material.synonyms:
        remarks.append(_also(material.synonyms, words))
    spelt = [words.text(remark) for remark in remarks]
    if material.cautions:  # codes keep their spelling: they are typed back
        spelt.append(f"Cautions: {', '.join(material.cautions)} (loamshift why CODE).")
    blocks: list[Block] = [Paragraph(say(material_comment(material), words))]
    blocks.append(Items(tuple(spelt)))
    return Letter(
        words.material_name(material),
        f"{words.text(material.group.value)}; written in a case as “{material.key}”",
        (
            Section(None, tuple(blocks)),
            Section("Figures", (table,)),
            sources_section(keys),
        ),
    )


def _cup(material: Material, words: Words) -> str:
    density = material.bulk_density_kg_m3 or 0.0
    cup_l = 0.2365882365
    low = (material.bulk_density_low_kg_m3 or density) * cup_l
    high = (material.bulk_density_high_kg_m3 or density) * cup_l
    return (
        f"A level US cup holds about {words.say(density * cup_l, Quantity.AMOUNT)} "
        f"({words.say(low, Quantity.AMOUNT)} to {words.say(high, Quantity.AMOUNT)}): weigh it."
    )


def _sizes(sizes: Sequence[SizeClass]) -> str:
    return ", ".join(
        f"{stated(100.0 * size.mass_frac)} % of {stated(size.low_um)} to {stated(size.high_um)} µm"
        for size in sizes
    )


def _label(name: str) -> str:
    return _SHOW_LABELS.get(name, name.replace("_", " "))


def _figure_cells(figure: Figure, numbers: Mapping[str, str]) -> tuple[str, str, str, str, str]:
    ends = [f"{figure.low:g}" if figure.low is not None else ""]
    ends.append(f"{figure.high:g}" if figure.high is not None else "")
    spread = " to ".join(ends) if any(ends) else ""
    return (
        f"{figure.value:g}",
        spread,
        figure.unit,
        figure.evidence.value,
        numbers[figure.source_key],
    )


def places_letter(places: Sequence[Place], *, words: Words) -> Letter:
    """A list of places [objects] with their year, in words [object]."""
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
    columns = (
        Column("place"),
        Column("country"),
        Column("latitude", Align.RIGHT),
        Column("mean air", Align.RIGHT),
        Column("rain a year", Align.RIGHT),
    )
    return list_letter(_count(len(places), "place"), columns, rows)


def place_letter(place: Place, *, words: Words) -> Letter:
    """One place [object] month by month, with where the figures come from [object]."""
    rows = tuple(
        (month, words.temperature(temp), words.water_depth(rain))
        for month, temp, rain in zip(MONTHS, place.air_temp_c, place.rain_mm, strict=True)
    )
    table = Table(
        (Column("month"), Column("air", Align.RIGHT), Column("rain", Align.RIGHT)),
        rows,
    )
    position = f"latitude {place.latitude:.2f}"
    if place.longitude is not None:
        position += f", longitude {place.longitude:.2f}"
    if place.elevation_m is not None:
        position += f", {place.elevation_m:.0f} m above the sea"
    return Letter(
        place.name,
        f"{place.country}; {position}" if place.country else position,
        (
            Section(None, (Paragraph(place.basis[:1].upper() + place.basis[1:] + "."), table)),
            sources_section((place.source_key,)),
        ),
    )


def _also(synonyms: Sequence[str], words: Words) -> str:
    return "Also: " + "; ".join(dict.fromkeys(words.text(name) for name in synonyms)) + "."


def _own_note(note: str, said: str) -> str:
    """What a source's note adds to what was said of the plant already."""
    return note.removeprefix(said).strip(" ;") if said else note


def _count(number: int, what: str) -> str:
    return f"{number} {what}{'' if number == 1 else 's'}"


EVIDENCE_WORDS = {
    Evidence.SEEN: "read in the source",
    Evidence.SECONDARY: "read in another work that quotes it",
    Evidence.MEMORY: "recalled, not read",
    Evidence.DERIVED: "our arithmetic",
    Evidence.JUDGEMENT: "our judgement",
    Evidence.COMMON_PRACTICE: "common practice, no source",
}
"""What each mark of evidence means, in words."""
