"""An answer's file whole: the answer, what was asked, and the letter as it was said."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final

from loamshift.case.answer import answer_from_tree
from loamshift.case.frozen import FrozenLetter, letter_from_plain
from loamshift.case.mend import Refused, fault_of
from loamshift.case.plain import load_json
from loamshift.domain.answer import Answer
from loamshift.domain.message import Given, Message, message
from loamshift.errors import CaseError, Fault

if TYPE_CHECKING:
    from loamshift.domain.case import Case

LARGEST_BYTES: Final = 20_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class AnswerFile:
    """What an answer's file holds. The case stays plain until somebody asks for it."""

    source: str
    answer: Answer
    kept_case: Any
    """The case as it stands in the file, or None."""
    letter: FrozenLetter | None

    def case(self) -> Case:
        """The case that was asked, read with the tables of today.

        Raises
        ------
        InputError
            Where the file keeps none, or one that today's tables no longer understand.
        """
        from loamshift.case.frozen_case import case_from_plain

        if self.kept_case is None:
            raise Refused(message("answer-without-case", file=Given(self.source)))
        return case_from_plain(self.kept_case, source=self.source)


def answer_file_from_json(text: str, *, source: str = "answer") -> AnswerFile:
    """Everything an answer's JSON holds.

    Raises
    ------
    CaseError
        Where answer or letter has another shape; it carries the faults with their paths.
    """
    tree = load_json(text, source=source)
    faults: list[Fault] = []
    answer: Answer | None = None
    letter: FrozenLetter | None = None
    try:
        answer = answer_from_tree(tree, source=source)
    except CaseError as error:
        faults += error.faults
    plain = tree.get("letter") if isinstance(tree, dict) else None
    if plain is not None:
        try:
            letter = letter_from_plain(plain, source=source)
        except CaseError as error:
            faults += error.faults
    if faults or answer is None:
        raise CaseError(faults, source=source)
    return AnswerFile(source=source, answer=answer, kept_case=tree.get("case"), letter=letter)


def read_answer_file(path: Path) -> AnswerFile:
    """Everything the JSON file of an answer holds.

    Raises
    ------
    CaseError
        Where it cannot be read or has another shape; it carries the faults with their paths.
    """
    source = str(path)
    mend = message("answer-name-one")
    try:
        with path.open("rb") as handle:
            data = handle.read(LARGEST_BYTES + 1)
    except FileNotFoundError:
        raise _file_error(source, message("file-missing"), message("file-check-name")) from None
    except IsADirectoryError:
        raise _file_error(source, message("file-is-folder"), mend) from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise _file_error(source, message("file-unreadable", why=Given(reason)), mend) from None
    if len(data) > LARGEST_BYTES:
        raise _file_error(source, message("answer-too-large"), mend)
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise _file_error(source, message("file-not-utf8"), mend) from None
    return answer_file_from_json(text, source=source)


def _file_error(source: str, wrong: Message, right: Message) -> CaseError:
    return CaseError([fault_of("file", None, wrong, right)], source=source)
