"""Builds the documentation, and keeps its examples and written pages current.

python tools/docs.py             build it into build/docs; any warning is an error
python tools/docs.py --refresh   write the generated pages and rerun every example in place
python tools/docs.py --check     exit 1 if an example or a generated page is out of date

Building needs no network and writes nothing outside ``build``.
"""

from __future__ import annotations

import difflib
import re
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
DOCS = ROOT / "docs"
BUILT = ROOT / "build" / "docs"

LOADED = re.compile(
    r"<(?:script|img|iframe|link|source|video|audio|embed|object)\b[^>]*?"
    r"\b(?:src|href|data|srcset)=[\"']((?:https?:)?//[^\"']+)",
    re.IGNORECASE,
)

sys.path.insert(0, str(ROOT / "tools"))

import docs_examples  # noqa: E402  (found by the line above)
import docs_pages  # noqa: E402
import gallery  # noqa: E402


def writers() -> dict[Path, Callable[[], str]]:
    """The generated pages that this tool writes, each with what writes it."""
    from loamshift.case.answer_page import answer_page

    return {DOCS / "answer-keys.md": answer_page, DOCS / "sources.md": docs_pages.sources_page}


def build() -> int:
    """Build the site; 0 when there was not a single warning."""
    shutil.rmtree(BUILT, ignore_errors=True)
    command = [sys.executable, "-m", "sphinx", "-b", "html", "-E", "-W", "--keep-going"]
    command += ["-q", "-j", "2"]
    command += ["-d", str(BUILT.parent / "docs-trees"), str(DOCS), str(BUILT)]
    done = subprocess.run(command, cwd=ROOT, check=False)
    pages = sorted(BUILT.rglob("*.html"))
    fetched = [
        f"{page.relative_to(BUILT)} loads {address}"
        for page in pages
        for address in foreign(page.read_text(encoding="utf-8"))
    ]
    print("\n".join([*fetched, f"build/docs/index.html: {len(pages)} pages"]))
    return 1 if fetched else done.returncode


def foreign(html: str) -> list[str]:
    """Addresses of other hosts that a page [HTML] would load; links to follow are no loading."""
    return LOADED.findall(html)


def stale() -> list[str]:
    """What is not as it would be printed today, with the first lines that differ."""
    found = []
    for path, text in current().items():
        before = path.read_text(encoding="utf-8") if path.exists() else ""
        if before != text:
            lines = difflib.unified_diff(before.splitlines(), text.splitlines(), lineterm="", n=0)
            found.append("\n".join([f"docs/{path.relative_to(DOCS)}", *list(lines)[2:14]]))
    return found


def current() -> dict[Path, str]:
    """Every page this tool keeps, as it would be today."""
    made = {path: write() for path, write in writers().items()}
    made |= {path: gallery.executed(path) for path in gallery.notebooks()}
    faults = []
    for path in docs_examples.pages():
        text = path.read_text(encoding="utf-8")
        try:
            made[path] = docs_examples.refreshed(text, str(path.relative_to(ROOT))).text
        except docs_examples.ExampleError as fault:
            faults.append(str(fault))
    if faults:
        raise SystemExit("\n".join(["nothing written:", *faults]))
    return made


def main(words: list[str]) -> int:
    """Build, refresh or check; 0 when all is well, 2 for wrong usage."""
    if words == ["--refresh"]:
        for path, text in current().items():
            if not path.exists() or path.read_text(encoding="utf-8") != text:
                path.write_text(text, encoding="utf-8")
                print(f"written: docs/{path.relative_to(DOCS)}")
        return 0
    if words == ["--check"]:
        found = stale()
        print("\n".join([*found, "run python tools/docs.py --refresh"] if found else ["current"]))
        return 1 if found else 0
    if words:
        print(__doc__)
        return 2
    return build()


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
