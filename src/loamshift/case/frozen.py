"""A letter as plain data and back, block by block: what was said once can be said again.

Nothing is worded or worked out here, so a letter comes back as it was sent, whatever tables and
wording have become since.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Final

from loamshift.case.codec import Codec
from loamshift.case.plain import TooManyFaultsError, tell
from loamshift.domain.letter import Figure, Items, Letter, Note, Paragraph, Table
from loamshift.domain.message import Given, Listed, message
from loamshift.errors import CaseError, Fault
from loamshift.report.words import Words

PATH: Final = "letter"
BLOCKS: Final[dict[str, type]] = {
    "paragraph": Paragraph,
    "table": Table,
    "items": Items,
    "note": Note,
    "figure": Figure,
}
"""Every kind of block by the name it has in the file."""
READER: Final = {"spelling": ("uk", "us"), "units": ("metric", "us")}
"""What is kept of the reader, and the words it may be."""
LEFT_OUT: Final = ("letterhead",)
"""Keys of a letter that are left out of the file where they are empty."""
_CODEC: Final = Codec(tags=BLOCKS, whole_stays=True)


@dataclass(frozen=True, slots=True)
class FrozenLetter:
    """A letter as it was said, and the spelling and units it was said in."""

    letter: Letter
    words: Words


def letter_to_plain(frozen: FrozenLetter) -> dict[str, Any]:
    """A letter as plain lists, texts and numbers.

    Raises
    ------
    LoamshiftError
        Where a figure holds a number that is none, which is our fault.
    """
    reader = {key: getattr(frozen.words, key) for key in READER}
    plain = _CODEC.encode(frozen.letter, PATH)
    said = {key: value for key, value in plain.items() if value or key not in LEFT_OUT}
    return {**reader, **said}


def letter_from_plain(plain: Any, *, source: str) -> FrozenLetter:
    """The letter in plain data, as it was said.

    Raises
    ------
    CaseError
        Where it has another shape; it carries every fault found, each with its path.
    """
    faults: list[Fault] = []
    letter, reader = None, {}
    try:
        if isinstance(plain, dict):
            reader = {key: _reader_word(plain, key, faults) for key in READER}
            plain = {key: value for key, value in plain.items() if key not in READER}
        letter = _CODEC.decode(plain, Letter, PATH, faults)
    except TooManyFaultsError:
        pass
    if faults or not isinstance(letter, Letter):
        raise CaseError(faults, source=source)
    return FrozenLetter(letter, Words(**reader))


def _reader_word(plain: dict[str, Any], key: str, faults: list[Fault]) -> str:
    word, right = plain.get(key), READER[key]
    if isinstance(word, str) and word in right:
        return word
    names = Listed(tuple(Given(f"“{one}”") for one in right), either=True)
    tell(faults, f"{PATH}.{key}", word, message("answer-one-of", names=names))
    return right[0]
