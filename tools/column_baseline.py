"""Write the pH that the column gives for one fixed run, for other machines to reach.

    python tools/column_baseline.py

Run it after a change of equations or coefficients that is meant to move the forecast, and say why
in the message of the commit.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
FILE = ROOT / "tests" / "baselines" / "column_course.json"

sys.path.insert(0, str(ROOT / "tests"))

from core.course_case import course  # noqa: E402
from loamshift.core.column_layout import ColumnResult  # noqa: E402


def baseline(result: ColumnResult) -> str:
    """The days, and the pH of each member on them, a line per member."""
    rows = ",\n  ".join(json.dumps([round(ph, 12) for ph in row]) for row in result.ph.tolist())
    return f'{{\n "day": {json.dumps(result.day.tolist())},\n "ph": [\n  {rows}\n ]\n}}\n'


def main() -> None:
    """Write the file and say how far the pH moved."""
    text = baseline(course())
    moved = "new"
    if FILE.exists():
        old, new = json.loads(FILE.read_text(encoding="utf-8"))["ph"], json.loads(text)["ph"]
        pairs = [(a, b) for x, y in zip(old, new, strict=True) for a, b in zip(x, y, strict=True)]
        moved = f"pH moved by at most {max(abs(a - b) for a, b in pairs):.2g}"
    FILE.write_text(text, encoding="utf-8", newline="\n")
    print(f"{FILE.relative_to(ROOT)}: {moved}")


if __name__ == "__main__":
    main()
