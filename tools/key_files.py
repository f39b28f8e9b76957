#!/usr/bin/env python3
"""In how many files a key of the case file is named by hand.

    tools/key_files.py            every key that can be told from other words, the most named first
    tools/key_files.py KEY…       the files that name it

Counted are the parts that ask, read, write, check or describe a key: `case`, `cli`, `report` and
`web`. Left out are `services`, `core`, `domain` and `tables`, which use what the key holds. A key
of one plain word (`ph`, `rate`, `date`) says too many other things to be counted.
"""

from __future__ import annotations

import re
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
SOURCE = ROOT / "src" / "loamshift"
PARTS = ("case", "cli", "report", "web")
ENDINGS = (".py", ".html", ".ftl")
ALSO = frozenset({"fizz", "sampled", "alkalinity", "currency", "incorporated", "hardness"})
"""Keys of one word that hardly say anything else."""


def countable_keys() -> tuple[str, ...]:
    """Keys whose names cannot be taken for other words, in the order of the case file."""
    from loamshift.case.questions import case_questions

    names = [question.key for table in case_questions() for question in table.questions]
    return tuple(dict.fromkeys(name for name in names if "_" in name or name in ALSO))


def files_that_name(key: str) -> list[str]:
    """Files, from `src/loamshift` down, where a key stands as a word or in a message's name."""
    dashed = key.replace("_", "-")
    word = re.compile(
        rf"(?<![\w-]){key}(?![\w-])|(?<=[a-z]-){dashed}(?![\w])(?!-[a-z])"
        rf"|(?<=[a-z]-){dashed}(?=-(?:in-text|empty|us|means)\b)"
    )
    return [
        str(path.relative_to(SOURCE))
        for part in PARTS
        for path in sorted((SOURCE / part).rglob("*"))
        if path.suffix in ENDINGS and "migrations" not in path.parts
        if word.search(path.read_text(encoding="utf-8"))
    ]


def main(words: list[str]) -> int:
    """Print the counts, or the files of the keys named."""
    if words:
        for key in words:
            print(f"{key}: " + ", ".join(files_that_name(key)))
        return 0
    counts = {key: len(files_that_name(key)) for key in countable_keys()}
    for key, count in sorted(counts.items(), key=lambda pair: -pair[1]):
        print(f"{count:3d}  {key}")
    print(f"{sum(counts.values()):3d}  in all, for {len(counts)} keys")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
