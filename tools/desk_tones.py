"""Write the colours of charts into the style sheet of the desk, from the one table that has them.

    python tools/desk_tones.py          write the part of desk.css between its two marks

``src/loamshift/report/chart_tones.py`` is the source; a letter takes them from there at once, the
desk as a file that browsers keep.
"""

from __future__ import annotations

import sys
from pathlib import Path
from typing import Final

ROOT: Final = Path(__file__).resolve().parent.parent
SHEET: Final = ROOT / "src" / "loamshift" / "web" / "static" / "loamshift" / "desk.css"
BEGIN: Final = "/* the colours of charts: written by tools/desk_tones.py */\n"
END: Final = "/* end of the colours of charts */\n"


def with_tones(sheet: str) -> str:
    """A style sheet with the colours of today between its marks."""
    from loamshift.report.chart_tones import tones_css

    before, rest = sheet.split(BEGIN)
    _, after = rest.split(END)
    return f"{before}{BEGIN}{tones_css()}{END}{after}"


def main() -> int:
    """Write the style sheet; 0."""
    SHEET.write_text(with_tones(SHEET.read_text(encoding="utf-8")), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
