"""The English of what services return as messages, for tests that look at words."""

from __future__ import annotations

from loamshift.domain.message import Worded
from loamshift.report.messages import say
from loamshift.report.words import Words


def read(what: Worded | None, *, units: str = "metric") -> str:
    """A message or sentences as a British reader has them, or an American for US units."""
    if what is None:
        return ""
    return say(what, Words("us", "us") if units == "us" else Words("uk", units))
