"""Tell whether what the repository generates is what the sources give today.

    python tools/current.py tables    src/loamshift/tables/data, built elsewhere and compared
    python tools/current.py pages     docs/case.md, docs/cli.md, the pages that tools/docs.py
                                      writes, and the letters of README.md

Nothing is written. Exit code 1 names what differs and the command that mends it.
"""

from __future__ import annotations

import contextlib
import io
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent

sys.path.insert(0, str(ROOT / "tools" / "tables"))
sys.path.insert(0, str(ROOT / "tools"))

import build  # noqa: E402  (found by the line above)
import common  # noqa: E402

import docs as site  # noqa: E402
import readme  # noqa: E402


def stale_tables() -> list[str]:
    """Shipped tables whose bytes are not what the building scripts give."""
    with tempfile.TemporaryDirectory() as folder, contextlib.redirect_stdout(io.StringIO()):
        build.build_all(Path(folder))
        built = {path.name: path.read_bytes() for path in Path(folder).iterdir()}
    shipped = {path.name: path.read_bytes() for path in common.DATA.glob("*.*")}
    return [
        f"{name}: run tools/tables/build.py and read the difference before keeping it"
        for name in sorted(built.keys() | shipped.keys())
        if built.get(name) != shipped.get(name)
    ]


def stale_pages() -> list[str]:
    """Generated pages that are not what the schema and the help texts give."""
    from loamshift.case.page import case_page
    from loamshift.cli.page import page

    writers = {"case": case_page, "cli": page}
    found = []
    for name, write in writers.items():
        path = ROOT / "docs" / f"{name}.md"
        if not path.exists() or path.read_text(encoding="utf-8") != write():
            found.append(f"docs/{name}.md: run python -m loamshift.{name}.page docs/{name}.md")
    for path, write_page in site.writers().items():
        if not path.exists() or path.read_text(encoding="utf-8") != write_page():
            found.append(f"docs/{path.name}: run python tools/docs.py --refresh")
    if readme.main(["--check"]):
        found.append("README.md: run python tools/readme.py")
    return found


CHECKS = {"tables": stale_tables, "pages": stale_pages}


def main(words: list[str]) -> int:
    """Run the checks named; 1 when something is not current, 2 for wrong usage."""
    if not words or not set(words) <= CHECKS.keys():
        print(__doc__)
        return 2
    found = [line for word in words for line in CHECKS[word]()]
    print("\n".join(found), end="\n" if found else "")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
