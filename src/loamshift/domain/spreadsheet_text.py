"""Text as a cell that no spreadsheet takes for a formula."""

from __future__ import annotations

from typing import Final

_STARTS_A_FORMULA: Final = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠", "'")


def spreadsheet_text(text: str) -> str:
    """Text with an apostrophe in front where a spreadsheet would take it for a formula.

    A text that starts with an apostrophe gets one too, so that taking one off always gives the
    text back.
    """
    return "'" + text if text.startswith(_STARTS_A_FORMULA) else text
