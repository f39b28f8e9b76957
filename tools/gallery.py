"""Runs the notebooks of the gallery, so that what a page shows is what is printed today.

python tools/gallery.py            exit 1 if a notebook would print something else
python tools/gallery.py --refresh  run every notebook and keep what it prints

Each runs in a process of its own, from the root of the checkout.
"""

from __future__ import annotations

import difflib
import sys
from importlib import import_module
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
GALLERY = ROOT / "docs" / "gallery"
LONGEST_S = 300
"""A cell that takes longer than this is stuck [s]."""


def notebooks() -> list[Path]:
    """The notebooks, in the order of their names."""
    return sorted(GALLERY.glob("*.ipynb"))


def executed(path: Path) -> str:
    """A notebook with the outputs it has today, as the text of its file.

    Parameters
    ----------
    path
        The notebook; the file is left as it is [path].

    Returns
    -------
    str
        JSON [text].
    """
    from nbclient import NotebookClient
    from traitlets.config import Config

    nbformat: Any = import_module("nbformat")  # its functions have no types
    book = nbformat.read(path, as_version=4)
    for number, cell in enumerate(book.cells, start=1):
        cell.id = f"cell-{number}"
        if cell.cell_type == "code":
            cell.outputs, cell.execution_count = [], None
    client = NotebookClient(
        book,
        timeout=LONGEST_S,
        kernel_name="python3",
        config=Config({"KernelManager": {"transport": "ipc"}}),  # no port is opened
        record_timing=False,
        coalesce_streams=True,  # how a text is cut in two hangs on the clock
        resources={"metadata": {"path": str(ROOT)}},
    )
    client.execute()
    book.metadata = nbformat.from_dict(
        {"kernelspec": {"display_name": "Python 3", "language": "python", "name": "python3"}}
    )
    return str(nbformat.writes(book, indent=1)) + "\n"


def main(words: list[str]) -> int:
    """Check or refresh; 0 when all is well, 2 for wrong usage."""
    if words not in ([], ["--refresh"]):
        print(__doc__)
        return 2
    stale = 0
    for path in notebooks():
        before, now = path.read_text(encoding="utf-8"), executed(path)
        if before == now:
            continue
        if words:
            path.write_text(now, encoding="utf-8")
            print(f"written: {path.relative_to(ROOT)}")
            continue
        stale += 1
        lines = difflib.unified_diff(before.splitlines(), now.splitlines(), lineterm="", n=0)
        print(path.relative_to(ROOT), *(line[:160] for line in list(lines)[2:14]), sep="\n")
    if stale:
        print("run python tools/gallery.py --refresh")
    return 1 if stale else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
