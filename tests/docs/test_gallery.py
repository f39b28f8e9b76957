"""The notebooks of the gallery run, and print what their pages show."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import gallery
import loamshift

ROOT = Path(__file__).parents[2]
WANTED = 5


def test_every_notebook_prints_what_its_page_shows() -> None:
    done = subprocess.run(
        [sys.executable, "tools/gallery.py"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr


def test_every_notebook_is_kept_run_and_without_an_error() -> None:
    assert len(gallery.notebooks()) == WANTED
    for path in gallery.notebooks():
        cells = [
            cell
            for cell in json.loads(path.read_text(encoding="utf-8"))["cells"]
            if cell["cell_type"] == "code"
        ]
        assert [cell["execution_count"] for cell in cells] == list(range(1, len(cells) + 1))
        kinds = [out["output_type"] for cell in cells for out in cell["outputs"]]
        assert kinds and "error" not in kinds, path.name


def test_every_notebook_is_on_the_page_of_the_gallery() -> None:
    page = (gallery.GALLERY / "index.md").read_text(encoding="utf-8")
    assert [path.stem for path in gallery.notebooks()] == [
        line for line in page.splitlines() if line[:1].isdigit()
    ]


def test_the_citation_names_this_version_and_no_person() -> None:
    lines = (ROOT / "CITATION.cff").read_text(encoding="utf-8").splitlines()
    assert f"version: {loamshift.__version__}" in lines
    authors = lines[lines.index("authors:") + 1 : lines.index(f"version: {loamshift.__version__}")]
    assert authors == ["  - name: The loamshift authors"]
