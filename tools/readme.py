"""Put the beginning of a letter back into README.md, as the program prints it today.

python tools/readme.py           rewrite README.md
python tools/readme.py --check   exit 1 if a letter in it is out of date
"""

from __future__ import annotations

import re
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
README = ROOT / "README.md"
BLOCK = re.compile(
    r"<!-- letter: (?P<case>\S+) -->\n```text\n.*?```\n<!-- end of letter -->", re.DOTALL
)
WIDTH = 88
SHOWN_BLOCKS = 3
"""Blocks of the front sheet that are shown: the head, the verdict and its reason [count]."""
CUT = "[…]"


def letter_of(case_file: str) -> str:
    """How the letter of a case begins on a terminal without colour."""
    from loamshift.case.read import read_case
    from loamshift.cli.kernel_cache import keep_kernels
    from loamshift.report.letter import letter_from_answer
    from loamshift.report.terminal import letter_text
    from loamshift.report.words import Words
    from loamshift.services.advise import LookAhead, advise

    keep_kernels()
    case = read_case(ROOT / case_file)
    units = case.units.value
    answer = advise(case, look_ahead=LookAhead())
    words = Words("us" if units == "us" else "uk", units)
    printed = letter_text(letter_from_answer(answer, case, words=words), width=WIDTH).strip()
    return "\n\n".join([*printed.split("\n\n")[:SHOWN_BLOCKS], CUT])


def current(text: str) -> str:
    """README with the letter in every block as it is printed today."""
    return BLOCK.sub(
        lambda found: (
            f"<!-- letter: {found['case']} -->\n```text\n{letter_of(found['case'])}\n```\n"
            "<!-- end of letter -->"
        ),
        text,
    )


def main(words: list[str]) -> int:
    """Rewrite or check; 0 when README shows what is printed."""
    text = README.read_text(encoding="utf-8")
    fresh = current(text)
    if words == ["--check"]:
        return 0 if fresh == text else 1
    README.write_text(fresh, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
