"""What the columns of a file of samples hold: pH and method, clay, organic matter."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Final

from loamshift.case.field.layers import Layer, figure
from loamshift.case.intake.headings import plain_words, read_heading
from loamshift.case.mend import Mend
from loamshift.case.schema_base import PH_METHOD
from loamshift.domain.message import Listed, message, number
from loamshift.domain.ph import PhMethod
from loamshift.domain.worded_error import WordedError, fault, given
from loamshift.errors import Fault
from loamshift.units import organic_matter_pct_from_organic_carbon_pct

PH, METHOD, CLAY, OM, OC, NAME = "ph", "method", "clay", "om", "oc", "name"
MEANINGS: Final = (PH, METHOD, CLAY, OM, OC, NAME)
LOWEST_PH, HIGHEST_PH = 3.0, 10.0
"""What a soil's pH is supposed to lie between; anything else is asked about, not mapped."""
_METHOD_WORDS: Final = frozenset(("method", "ph method", "soil ph method"))
_NAME_WORDS: Final = frozenset(
    ("id", "name", "sample", "sample id", "sample name", "zone", "point", "no", "nr", "label")
)
_OWN_PATHS: Final = {
    "soil ph": PH,
    "soil ph method": METHOD,
    "soil clay pct": CLAY,
    "soil organic matter pct": OM,
    "soil organic carbon pct": OC,
    "clay pct": CLAY,
    "om pct": OM,
    "oc pct": OC,
    "organic matter pct": OM,
    "organic carbon pct": OC,
}
_PER_KILOGRAM: Final = frozenset(("g/kg", "g kg", "g kg-1"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """What one row says: its name, pH and method, clay and organic matter [%]."""

    name: str
    ph: float
    method: PhMethod
    clay_pct: float | None
    organic_matter_pct: float | None


def columns_of(layer: Layer, told: Mapping[str, str]) -> dict[str, str]:
    """The heading of each thing that is read.

    Parameters
    ----------
    told
        Headings that the person named, by what they hold.

    Raises
    ------
    WordedError
        Where a heading that was named is not there, or none holds a pH.
    """
    for heading in told.values():
        if heading not in layer.headings:
            listed = given(", ".join(layer.headings))
            raise WordedError(message("map-no-column", column=given(heading), headings=listed))
    found = dict(told)
    for heading in layer.headings:
        meaning = _meaning(heading)
        if meaning and meaning not in found:
            found[meaning] = heading
    return found


def rows_of(
    layer: Layer, columns: Mapping[str, str], *, told_method: PhMethod | None, no_ph_ok: bool
) -> tuple[dict[int, Row], tuple[str, ...]]:
    """What each row says, by its place, and the names of rows without a pH.

    Parameters
    ----------
    told_method
        Of rows that name none.
    no_ph_ok
        True for zones without a test of their own.

    Raises
    ------
    WordedError
        With every fault.
    """
    if PH not in columns:
        if no_ph_ok:
            return {}, layer.names
        listed = given(", ".join(layer.headings))
        raise WordedError(message("map-no-ph-column", path=given(layer.path), headings=listed))
    faults: list[Fault] = []
    without: list[str] = []
    found: dict[int, Row] = {}
    heading_method = _method_of_heading(columns[PH])
    missing: list[str] = []
    clay = _fractions(layer, columns.get(CLAY), faults)
    matter = _fractions(layer, columns.get(OM), faults)
    carbon = _fractions(layer, columns.get(OC), faults)
    for place, (name, cells) in enumerate(zip(layer.names, layer.cells, strict=True)):
        text = cells.get(columns[PH], "").strip()
        title = _title(name, cells, columns)
        if not text:
            without.append(title)
            continue
        ph = figure(text)
        if ph is None:
            faults.append(fault(f"row {name}", message("map-ph-words"), given=text))
            continue
        if not LOWEST_PH <= ph <= HIGHEST_PH:
            wrong = message("map-ph-odd", low=number(LOWEST_PH), high=number(HIGHEST_PH))
            faults.append(fault(f"row {name}", wrong, message("map-ph-odd-mend"), given=text))
            continue
        method = heading_method or told_method
        if METHOD in columns and (said := cells.get(columns[METHOD], "").strip()):
            method = _method(said)
            if method is None:
                methods = Listed(tuple(given(one.value) for one in PhMethod), either=True)
                wrong = message("map-method-unknown", methods=methods)
                faults.append(fault(f"row {name}", wrong, given=said))
                continue
        if method is None:
            missing.append(name)
            continue
        organic = matter.get(place)
        if organic is None and place in carbon:
            organic = organic_matter_pct_from_organic_carbon_pct(carbon[place])
        found[place] = Row(
            name=title,
            ph=ph,
            method=method,
            clay_pct=clay.get(place),
            organic_matter_pct=organic,
        )
    if missing:
        some = len(missing) < len(layer.names)
        raise WordedError(
            message(
                "map-method-missing",
                rows=few(missing) if some else None,
                methods=Listed(tuple(given(one.value) for one in PhMethod), either=True),
            )
        )
    if faults:
        raise WordedError(message("map-faults", path=given(layer.path)), faults)
    return found, tuple(without)


def few(names: Sequence[str], *, most: int = 6) -> Listed:
    """The first of some names, and how many more there are."""
    shown = [given(one) for one in names[:most]]
    if len(names) > most:
        return Listed((*shown, message("map-and-more", count=len(names) - most)))
    return Listed(tuple(shown))


def _meaning(heading: str) -> str:
    plain = plain_words(heading)
    if plain in _METHOD_WORDS:
        return METHOD
    if plain in _OWN_PATHS:
        return _OWN_PATHS[plain]
    if plain in _NAME_WORDS:
        return NAME
    read = read_heading(heading)
    key = read.meanings[0].key if read.meanings else ""
    return key if key in (PH, CLAY, OM, OC) else ""


def _title(name: str, cells: Mapping[str, str], columns: Mapping[str, str]) -> str:
    said = cells.get(columns.get(NAME, ""), "").strip()
    return said or name


def _method_of_heading(heading: str) -> PhMethod | None:
    """The method that a heading names whole, such as ``pH (CaCl2)`` or ``pH water 1:2.5``."""
    read = read_heading(heading)
    words = {one.method for one in read.meanings[:1] if one.method}
    text = next(iter(words), "")
    if "water" in text and read.ratio:
        text = f"water {read.ratio}"
    return _method(text)


def _method(text: str) -> PhMethod | None:
    try:
        found = PH_METHOD.parse(text) if text else None
    except Mend:
        return None
    return found if isinstance(found, PhMethod) else None


def _fractions(layer: Layer, heading: str | None, faults: list[Fault]) -> dict[int, float]:
    """Percentages of a column by row; a column that runs past a hundred is asked about."""
    if heading is None:
        return {}
    read = read_heading(heading)
    share = 0.1 if read.unit in _PER_KILOGRAM or plain_words(heading).endswith("g kg") else 1.0
    found: dict[int, float] = {}
    for place, (name, cells) in enumerate(zip(layer.names, layer.cells, strict=True)):
        text = cells.get(heading, "").strip()
        value = figure(text) if text else None
        if value is None:
            continue
        value *= share
        if not 0.0 <= value <= 100.0:
            wrong = message("map-not-percent", column=given(heading))
            faults.append(fault(f"row {name}", wrong, message("map-per-kg"), given=text))
            return found
        found[place] = value
    return found
