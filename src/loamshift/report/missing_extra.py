"""A part that was not installed: what it is for, and the line that installs it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from loamshift.domain.message import Given, message
from loamshift.domain.worded_error import WordedError

EXTRA_OF: Final[Mapping[str, str]] = MappingProxyType(
    {
        "typst": "letters",
        "django": "web",
        "django_htmx": "web",
        "ninja": "web",
        "waitress": "web",
        "whitenoise": "web",
        "psycopg": "office",
        "geopandas": "map",
        "pyogrio": "map",
        "pyproj": "map",
        "rasterio": "map",
        "shapely": "map",
        "sklearn": "map",
        "threadpoolctl": "map",
        "pandas": "lab",
        "polars": "polars",
        "dask": "scale",
        "distributed": "scale",
        "pyarrow": "scale",
    }
)
"""The extra of the package that brings each module."""


def missing_extra(error: BaseException) -> WordedError | None:
    """What to tell the user where a module of an extra is missing; None for any other error."""
    seen: BaseException | None = error
    while seen is not None:
        if isinstance(seen, ModuleNotFoundError) and seen.name is not None:
            extra = EXTRA_OF.get(seen.name.partition(".")[0])
            if extra is not None:
                return WordedError(message("extra-missing", extra=Given(extra)))
        seen = seen.__cause__ or seen.__context__
    return None


def need_module(name: str) -> WordedError:
    """The error for a module [text] of an extra that somebody asked for by name [object]."""
    return WordedError(message("extra-missing", extra=Given(EXTRA_OF[name])))
