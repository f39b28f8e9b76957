"""Make the pictures of the workbench that README.md shows, from the workbench itself.

    python tools/desk_pictures.py          write docs/pictures/desk-*.png

It fills a store in a temporary folder with invented data, opens the workbench on it as a user
does, and takes what Chromium shows. Needs Chromium and the development extras.
"""

from __future__ import annotations

import io
import json
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date, timedelta
from pathlib import Path
from typing import Any, Final, Literal
from urllib.parse import urlencode

ROOT: Final = Path(__file__).resolve().parent.parent
FOLDER: Final = ROOT / "docs" / "pictures"
LARGEST_BYTES: Final = 150_000
COLOURS: Final = 64
OPENED: Final = re.compile(r"open at (http://\S+?)/ ")
BROWSERS: Final = ("chromium", "chromium-browser")
CLAIM: Final = urlencode(
    {
        "claim.0.material": "coffee grounds",
        "claim.0.amount": "2 kg/m2",
        "soil.texture": "loam",
        "soil.ph": "7.2",
        "aim.target_ph": "5.5",
    }
)
GROUND: Final = (
    ("Berry border", ((1, 1), (7, 1), (7, 4), (1, 4))),
    ("Kitchen plot", ((9, 3), (14, 3), (14, 9), (9, 9))),
    ("Shed", ((1.5, 7.5), (4.5, 7.5), (4.5, 10.5), (1.5, 10.5))),
    ("Pond", ((15.5, 8), (17, 7), (18.5, 8), (18.5, 10), (17, 11), (15.5, 10))),
)


@dataclass(frozen=True, slots=True)
class Shot:
    """One picture: a page in a light, at a width, down to a height [px]."""

    page: str
    width_px: int
    height_px: int
    scheme: Literal["light", "dark"] = "light"
    shown_px: int = 760
    after: str = ""
    """Something to see first."""


SHOTS: Final = {
    "desk-plan.png": Shot("bed", 1120, 1120, after="#sliders:not([hidden])"),
    "desk-plan-phone.png": Shot("bed", 390, 860, "dark", 390, after="#sliders:not([hidden])"),
    "desk-beds.png": Shot("beds", 1120, 470),
    "desk-history.png": Shot("history", 1120, 860),
    "desk-garden.png": Shot("garden", 1120, 780),
    "desk-claims.png": Shot("claims", 1120, 820),
}


def fill(folder: Path) -> dict[str, str]:
    """Put invented beds with a year behind them into a new store; addresses by page."""
    from loamshift.web.serve import set_up

    set_up(folder=folder)
    from loamshift.store.changes import Writer
    from loamshift.store.models import Bed, Garden, Office
    from loamshift.web.beds.keeping import put_case
    from loamshift.web.beds.samples import SAMPLES
    from loamshift.web.cases import with_fields
    from loamshift.web.letters.sending import letter_to_send
    from loamshift.web.prepare import prepare

    prepare(folder, samples=True)
    today = date.today()  # noqa: DTZ011 - the local day, as the pages take it
    office = Office.objects.get()
    office.toured = True
    office.save()
    writer = Writer(office, what="A year of work")
    border, plot = (Bed.objects.get(name=name) for name in ("Berry border", "Kitchen plot"))
    then = today - timedelta(days=420)
    put_case(border, SAMPLES[0].case_text, today=then)
    writer.add(letter_to_send(border, office=office, today=then))
    noted = {
        "soil.sampled": str(today - timedelta(days=430)),
        "applied.0.material": "elemental sulfur, powder",
        "applied.0.rate": "60 g/m2",
        "applied.0.date": str(today - timedelta(days=410)),
        "reading.0.ph": "6.5",
        "reading.0.ph_method": "water 1:1",
        "reading.0.date": str(today - timedelta(days=220)),
        "reading.1.ph": "6.2",
        "reading.1.ph_method": "water 1:1",
        "reading.1.date": str(today - timedelta(days=40)),
    }
    tree = with_fields(border.case_json, list(noted.items()))
    put_case(border, tree, today=today)
    writer.change(border, seen_version=border.version)
    writer.add(letter_to_send(plot, office=office, today=today))
    garden = Garden.objects.get()
    ids = {bed.name: str(bed.pk) for bed in (border, plot)}
    garden.plan = {
        "width_m": 20.0,
        "height_m": 12.0,
        "areas": [
            {
                "name": "" if name in ids else name,
                "bed": ids.get(name),
                "points": [list(point) for point in points],
            }
            for name, points in GROUND
        ],
    }
    writer.change(garden, seen_version=garden.version)
    return {
        "bed": f"/beds/{border.pk}",
        "beds": "/beds/",
        "history": f"/beds/{border.pk}/history",
        "garden": f"/gardens/{garden.pk}",
        "claims": f"/claims/?{CLAIM}",
    }


@contextmanager
def opened(folder: Path) -> Iterator[str]:
    """The workbench as a user opens it: its address."""
    command = [sys.executable, "-m", "loamshift", "open", "--no-browser", "--port", "0"]
    with subprocess.Popen(
        [*command, "--data", str(folder)],
        stdin=subprocess.DEVNULL,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
        text=True,
        encoding="utf-8",
    ) as process:
        assert process.stderr is not None
        try:
            for line in process.stderr:
                found = OPENED.search(line)
                if found:
                    yield found[1]
                    return
            raise RuntimeError("the workbench did not open")
        finally:
            process.terminate()


def pictures(chromium: str, addresses: dict[str, str], root: str) -> dict[str, bytes]:
    """What Chromium shows, as PNG of few colours, by file name."""
    from playwright.sync_api import sync_playwright

    made = {}
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=chromium, args=["--no-sandbox"])
        for name, shot in SHOTS.items():
            context = browser.new_context(
                color_scheme=shot.scheme,
                viewport={"width": shot.width_px, "height": shot.height_px},
                device_scale_factor=2 if shot.shown_px == shot.width_px else 1.5,
                reduced_motion="reduce",
            )
            screen = context.new_page()
            screen.set_default_timeout(120_000)
            screen.goto(root + addresses[shot.page])
            screen.wait_for_selector(shot.after or "main h1")
            screen.wait_for_load_state("networkidle")
            screen.wait_for_timeout(300)
            made[name] = few_colours(screen.screenshot(), shot)
            context.close()
        browser.close()
    return made


def few_colours(content: bytes, shot: Shot) -> bytes:
    """A screen as a small PNG: no more pixels than are shown on a fine display, few colours."""
    from PIL import Image

    picture: Any = Image.open(io.BytesIO(content)).convert("RGB")
    width = min(picture.width, round(1.5 * shot.shown_px))
    size = (width, picture.height * width // picture.width)
    small = picture.resize(size, Image.Resampling.LANCZOS)
    out = io.BytesIO()
    small.quantize(COLOURS, method=Image.Quantize.MAXCOVERAGE, kmeans=4).save(
        out, "PNG", optimize=True
    )
    return out.getvalue()


def main() -> int:
    """Write the pictures; 1 where Chromium is missing or a picture is too large."""
    chromium = next((path for one in BROWSERS if (path := shutil.which(one))), None)
    if chromium is None:
        print("Chromium is not here; the pictures are taken with it")
        return 1
    FOLDER.mkdir(parents=True, exist_ok=True)
    too_large = False
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        filled = subprocess.run(
            [sys.executable, __file__, "--fill", str(folder)],
            stdout=subprocess.PIPE,
            text=True,
            check=True,
        )
        with opened(folder) as root:
            made = pictures(chromium, json.loads(filled.stdout), root)
    for name, content in made.items():
        (FOLDER / name).write_bytes(content)
        too_large |= len(content) > LARGEST_BYTES
        print(f"docs/pictures/{name}: {len(content)} bytes")
    return 1 if too_large else 0


if __name__ == "__main__":
    if sys.argv[1:2] == ["--fill"]:
        print(json.dumps(fill(Path(sys.argv[2]))))
        sys.exit(0)
    sys.exit(main())
