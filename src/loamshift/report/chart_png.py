"""A picture as dots: SVG set on a sheet of its own size by the part that prints the letters."""

from __future__ import annotations

import re
from typing import Any, Final

from loamshift.report.typeface import settable, type_folder

_WIDTH: Final = re.compile(r'<svg [^>]*?\bwidth="([\d.]+)"')
_PT_PER_PX: Final = 0.75
_PX_PER_INCH: Final = 96.0


def png_of(svg: str, *, scale: float = 2.0) -> bytes:
    """An SVG picture as PNG.

    Parameters
    ----------
    scale
        Dots per pixel, above 0 [1].
    """
    import typst

    found = _WIDTH.search(svg)
    assert found is not None
    width = f"{float(found[1]) * _PT_PER_PX}pt"
    sheet = (
        f"#set page(width: {width}, height: auto, margin: 0pt)\n"
        f'#image("picture.svg", width: {width})'
    )
    with type_folder() as folder:
        files: Any = {  # in memory; the type hints of the wheel do not know that they may be
            "main": sheet.encode("ascii"),
            "picture.svg": settable(svg, pictures=False).encode("utf-8"),
        }
        png = typst.compile(
            files,
            format="png",
            ppi=_PX_PER_INCH * scale,
            font_paths=[folder],
            ignore_system_fonts=True,
        )
    assert isinstance(png, bytes)
    return png
