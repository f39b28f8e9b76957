"""Make the pictures of a front sheet that README.md shows, light and dark, from the page itself.

    python tools/letter_picture.py          write docs/pictures/letter-light.png and -dark.png

Needs Chromium and the development extras; the pictures are small enough for a page (under
150 KB each).
"""

from __future__ import annotations

import io
import sys
import tempfile
from pathlib import Path
from typing import Final, Literal

ROOT: Final = Path(__file__).resolve().parent.parent
FOLDER: Final = ROOT / "docs" / "pictures"
EXAMPLE: Final = "north-border"
CHROMIUM: Final = Path("/usr/bin/chromium")
WIDTH_PX, HEIGHT_PX = 1120, 1440
SHOWN_WIDTH_PX: Final = 760
LARGEST_BYTES: Final = 150_000
SCHEMES: Final[tuple[Literal["light", "dark"], ...]] = ("light", "dark")


def page() -> str:
    """The letter of the example as a page."""
    from loamshift.case.read import read_case
    from loamshift.cli.kernel_cache import keep_kernels
    from loamshift.report.html import letter_html
    from loamshift.report.letter import letter_from_answer
    from loamshift.report.words import Words
    from loamshift.services.advise import LookAhead, advise

    keep_kernels()
    case = read_case(ROOT / "examples" / f"{EXAMPLE}.toml")
    words = Words("uk", "metric")
    return letter_html(
        letter_from_answer(advise(case, look_ahead=LookAhead()), case, words=words), words=words
    )


def pictures(html: str) -> dict[str, bytes]:
    """Screens of a page as PNG of few colours, by file name."""
    from PIL import Image
    from playwright.sync_api import sync_playwright

    made = {}
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        file = Path(folder) / "letter.html"
        file.write_text(html, encoding="utf-8")
        browser = playwright.chromium.launch(executable_path=str(CHROMIUM), args=["--no-sandbox"])
        for scheme in SCHEMES:
            context = browser.new_context(
                color_scheme=scheme,
                viewport={"width": WIDTH_PX, "height": HEIGHT_PX},
                java_script_enabled=False,
            )
            screen = context.new_page()
            screen.goto(file.as_uri())
            screen.wait_for_timeout(300)
            picture = Image.open(io.BytesIO(screen.screenshot()))
            out = io.BytesIO()
            shown = (SHOWN_WIDTH_PX, HEIGHT_PX * SHOWN_WIDTH_PX // WIDTH_PX)
            small = picture.convert("RGB").resize(shown, Image.Resampling.LANCZOS)
            small.quantize(128, method=Image.Quantize.MAXCOVERAGE, kmeans=4).save(
                out, "PNG", optimize=True
            )
            made[f"letter-{scheme}.png"] = out.getvalue()
            context.close()
        browser.close()
    return made


def main() -> int:
    """Write the pictures; 1 where Chromium is missing or a picture is too large."""
    if not CHROMIUM.exists():
        print(f"{CHROMIUM} is not here; the pictures are taken with it")
        return 1
    FOLDER.mkdir(parents=True, exist_ok=True)
    too_large = False
    for name, content in pictures(page()).items():
        (FOLDER / name).write_bytes(content)
        too_large |= len(content) > LARGEST_BYTES
        print(f"docs/pictures/{name}: {len(content)} bytes")
    return 1 if too_large else 0


if __name__ == "__main__":
    sys.exit(main())
