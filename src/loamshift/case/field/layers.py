"""A file with places as rows of text with a shape each, whatever program wrote it."""

from __future__ import annotations

import warnings
from dataclasses import dataclass
from pathlib import Path
from typing import Any, Final

from loamshift.case.intake.headings import plain_words
from loamshift.case.intake.sheets import read_sheets
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError, given

TABLES: Final = (".csv", ".tsv", ".txt", ".xlsx", ".xls", ".ods")
SHAPES: Final = (".gpkg", ".geojson", ".json", ".shp", ".zip", ".fgb", ".kml")
EAST: Final = frozenset(
    ("x", "easting", "eastings", "east", "lon", "long", "longitude", "lng", "x m", "utm x", "utm e")
)
NORTH: Final = frozenset(
    ("y", "northing", "northings", "north", "lat", "latitude", "y m", "utm y", "utm n")
)
DEGREES: Final = frozenset(("lon", "long", "longitude", "lng", "lat", "latitude"))
WGS84: Final = "EPSG:4326"
MOST_ROWS: Final = 20_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """Rows of a file: what each is called, its shape, its cells by heading.

    ``crs`` None where nothing says it; ``degrees`` where the headings of a table say longitude and
    latitude.
    """

    path: Path
    names: tuple[str, ...]
    shapes: tuple[Any, ...]
    cells: tuple[dict[str, str], ...]
    headings: tuple[str, ...]
    crs: Any | None
    degrees: bool = False


def read_layer(path: Path) -> Layer:
    """The rows of a table with coordinates, or of a file of shapes.

    Raises
    ------
    WordedError
        Where the file cannot be opened, is no such file, or holds no row with a place.
    """
    if not path.exists():
        raise WordedError(message("map-file-missing", path=given(path)))
    if path.is_dir():
        raise WordedError(message("map-file-folder", path=given(path)))
    try:
        with path.open("rb") as handle:
            handle.read(1)
    except OSError as error:
        why = error.strerror or str(error)
        raise WordedError(
            message("map-file-unreadable", path=given(path), why=given(why))
        ) from None
    ending = path.suffix.casefold()
    if ending in TABLES:
        return _table(path)
    if ending in SHAPES:
        return _shapes(path)
    raise WordedError(message("map-file-ending", path=given(path)))


def _table(path: Path) -> Layer:
    from shapely.geometry import Point

    sheet = next((one for one in read_sheets(path) if len(one.rows) > 1), None)
    if sheet is None:
        raise WordedError(message("map-file-empty", path=given(path)))
    head = sheet.rows[0]
    plain = [plain_words(one) for one in head]
    east = next((n for n, one in enumerate(plain) if one in EAST), None)
    north = next((n for n, one in enumerate(plain) if one in NORTH), None)
    if east is None or north is None:
        listed = given(", ".join(one for one in head if one))
        raise WordedError(message("map-no-coordinates", path=given(path), headings=listed))
    names, shapes, cells = [], [], []
    for number, row in enumerate(sheet.rows[1:], start=2):
        if not any(cell.strip() for cell in row):
            continue
        filled = {title: (row[n] if n < len(row) else "") for n, title in enumerate(head) if title}
        x, y = (figure(row[n] if n < len(row) else "") for n in (east, north))
        names.append(str(number))
        shapes.append(None if x is None or y is None else Point(x, y))
        cells.append(filled)
    degrees = plain[east] in DEGREES and plain[north] in DEGREES
    return _checked(
        Layer(
            path=path,
            names=tuple(names),
            shapes=tuple(shapes),
            cells=tuple(cells),
            headings=tuple(one for one in head if one),
            crs=None,
            degrees=degrees,
        )
    )


def _shapes(path: Path) -> Layer:
    import geopandas
    import pyogrio

    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            layers = pyogrio.list_layers(path)
            if len(layers) == 0:
                raise WordedError(message("map-file-empty", path=given(path)))
            frame = geopandas.read_file(path, layer=str(layers[0][0]), engine="pyogrio")
    except WordedError:
        raise
    except Exception as error:  # each driver has errors of its own
        why = str(error).split("; ")[0].splitlines()[0].rstrip(".")
        raise WordedError(message("map-file-broken", path=given(path), why=given(why))) from error
    if "geometry" not in frame.columns:
        raise WordedError(message("map-file-no-shapes", path=given(path)))
    headings = [str(one) for one in frame.columns if one != "geometry"]
    rows = frame.to_dict("records")
    cells = [{title: _text(row[title]) for title in headings} for row in rows]
    shapes = [None if one is None or one.is_empty else one for one in frame.geometry]
    return _checked(
        Layer(
            path=path,
            names=tuple(str(number) for number in range(1, len(rows) + 1)),
            shapes=tuple(shapes),
            cells=tuple(cells),
            headings=tuple(headings),
            crs=frame.crs,
        )
    )


def _checked(layer: Layer) -> Layer:
    if not layer.names:
        raise WordedError(message("map-file-empty", path=given(layer.path)))
    if len(layer.names) > MOST_ROWS:
        raise WordedError(message("map-file-too-long", path=given(layer.path), most=MOST_ROWS))
    return layer


def _text(value: object) -> str:
    if value is None or value != value:  # a gap of a number column is no number
        return ""
    if isinstance(value, float) and value.is_integer():
        return str(int(value))
    return str(value)


def figure(text: str) -> float | None:
    """A number of a cell with a point or a comma; None for an empty cell and for words."""
    text = text.strip().replace("\u2212", "-")
    if "," in text and "." not in text:
        text = text.replace(",", ".")
    try:
        value = float(text)
    except ValueError:
        return None
    return value if abs(value) < 1e12 else None
