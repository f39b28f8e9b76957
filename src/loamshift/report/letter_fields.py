"""Keys of the case file in words: a letter is read by people who never see the file."""

from __future__ import annotations

import re

_LABELS = {
    "soil.ph": "A laboratory pH",
    "soil.ph_method": "How the pH was read",
    "soil.other_ph": "A second pH",
    "soil.texture": "Texture",
    "soil.clay_pct": "Clay",
    "soil.organic_matter_pct": "Humus",
    "soil.organic_carbon_pct": "Organic carbon",
    "soil.fizz": "A fizz test",
    "soil.fizz_acid": "Which acid the fizz was tried with",
    "soil.carbonate_pct": "A laboratory figure for lime",
    "soil.buffer_ph": "Buffer pH",
    "soil.buffer_ph_method": "Which buffer the laboratory used",
    "soil.bulk_density_g_cm3": "Weight of the soil",
    "soil.cec_cmolc_kg": "Cation exchange capacity",
    "soil.exchangeable_al_cmolc_kg": "Exchangeable aluminium",
    "soil.ec_ds_m": "Salt (conductivity)",
    "soil.ec_method": "How the salt was read",
    "soil.sodium_pct": "Sodium",
    "soil.mg_saturation_pct": "Magnesium",
    "soil.sampled": "Date of the sample",
    "soil.sample_depth": "Depth of the sample",
    "water.alkalinity": "Alkalinity of the water",
    "water.weekly": "How much water it gets",
    "bed.area": "Area",
    "bed.depth": "Depth to treat",
    "bed.planted": "Whether it is planted",
    "bed.drainage": "Drainage",
    "bed.site": "What the ground was used for",
    "aim.plant": "The plant wanted",
    "aim.target_ph": "The pH wanted",
    "feed": "The yearly feed",
    "feed.form": "Form of the nitrogen",
    "feed.n_g_m2_year": "Nitrogen in a year",
    "place": "The place",
    "place.name": "The place",
    "titration": "Resistance to change",
}
_IN_TEXT = {
    "soil.ph": "the pH of the soil",
    "soil.ph_method": "the method of the pH",
    "soil.clay_pct": "the clay in per cent",
    "soil.carbonate_pct": "the free lime in per cent",
    "soil.ec_method": "that",
    "aim.plant": "the plant wanted",
    "aim.target_ph": "a target pH",
    "aim.target_method": "that method for the target",
    "feed.n_g_m2_year": "a yearly figure for it",
    "place.latitude": "its latitude",
    "place.longitude": "longitude",
    "water.alkalinity": "the alkalinity of the water",
}
_TABLES = "place|bed|soil|aim|water|feed|on_hand|applied|reading|claim|titration"
_PATH = rf"(?:{_TABLES})(?:\[\d+\])?(?:\.[a-z][a-z0-9_]*)+"
_AT_START = re.compile(rf"^({_PATH})(?=: )")
_ANYWHERE = re.compile(rf"(?<![\w.]){_PATH}\b(?!\()")


def field_called(path: str) -> str:
    """A path of the case file [text] as a label [text]."""
    if path in _LABELS:
        return _LABELS[path]
    name = path.rsplit(".", 1)[-1].replace("_", " ")
    entry = re.match(r"([a-z_]+)\[(\d+)\]", path)
    label = name if entry is None else f"{entry[1].replace('_', ' ')} {entry[2]}, {name}"
    return label[:1].upper() + label[1:]


def without_paths(text: str) -> str:
    """A text [text] with the paths of the case file in it put into words [text]."""
    text = _AT_START.sub(lambda found: field_called(found[1]), text)
    return _ANYWHERE.sub(lambda found: _IN_TEXT.get(found[0]) or _the(found[0]), text)


def _the(path: str) -> str:
    return f"the {path.rsplit('.', 1)[-1].replace('_', ' ')}"
