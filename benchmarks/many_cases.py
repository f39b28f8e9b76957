"""Many cases of one kind: the examples, each with another name, pH and area, the same every time.

    .venv/bin/python benchmarks/many_cases.py FOLDER 500

writes them as case files, to time a batch by hand.
"""

from __future__ import annotations

import random
import re
import sys
from pathlib import Path
from typing import Final

EXAMPLES: Final = sorted((Path(__file__).resolve().parents[1] / "examples").glob("*.toml"))
SEED: Final = 20260412
PH_SPREAD: Final = 0.4
"""A reading moves by no more than this, so that the case stays of its kind."""
AREA_SPREAD: Final = 0.5
"""An area changes by no more than this share of it."""
_NAME: Final = re.compile(r'^name = "(.*)"$', re.MULTILINE)
_PH: Final = re.compile(r"^ph = ([\d.]+)", re.MULTILINE)
_AREA: Final = re.compile(r'^area = "([\d.]+)', re.MULTILINE)


def case_texts(count: int) -> list[str]:
    """Texts of case files, no two alike [text]."""
    rng = random.Random(SEED)
    texts = [path.read_text(encoding="utf-8") for path in EXAMPLES]
    return [_varied(texts[number % len(texts)], number, rng) for number in range(count)]


def write_cases(folder: Path, count: int) -> list[Path]:
    """The same as files in a folder, in the order of their names [paths]."""
    folder.mkdir(parents=True, exist_ok=True)
    paths = [folder / f"case-{number:04}.toml" for number in range(count)]
    for path, text in zip(paths, case_texts(count), strict=True):
        path.write_text(text, encoding="utf-8")
    return paths


def _varied(text: str, number: int, rng: random.Random) -> str:
    ph_change = rng.uniform(-PH_SPREAD, PH_SPREAD)
    area_factor = 1.0 + rng.uniform(-AREA_SPREAD, AREA_SPREAD)
    text = _NAME.sub(rf'name = "\1 {number}"', text, count=1)
    text = _PH.sub(lambda found: f"ph = {float(found[1]) + ph_change:.2f}", text)
    return _AREA.sub(lambda found: f'area = "{float(found[1]) * area_factor:.3g}', text, count=1)


if __name__ == "__main__":
    write_cases(Path(sys.argv[1]), int(sys.argv[2]))
