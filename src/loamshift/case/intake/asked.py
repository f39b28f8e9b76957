"""What questions about a column are called, and how a column is named in them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from loamshift.case.intake.headings import plain_words
from loamshift.case.intake.keys import TEXT_PATHS
from loamshift.case.intake.proposal import Aspect
from loamshift.domain.field_name import field_in_text
from loamshift.domain.message import Message, message
from loamshift.tables.report_quantities import ReportQuantity, load_report_quantities

IGNORE: Final = "ignore"
CONVERT: Final = "convert"


def answer_key(heading: str, aspect: Aspect) -> str:
    """What an answer about a column is called, such as ``pH: method``."""
    return f"{heading}: {aspect.value}"


def name_of(key: str) -> Message:
    """What a column is, as in a sentence."""
    known = load_report_quantities().get(key)
    if known is not None and key not in ("lime_test_index", "depth_to"):
        return field_in_text(known.path)
    return message(f"intake-is-{key.replace('_', '-')}" if key else "intake-is-nothing")


def told_of(told: Mapping[str, str], heading: str, aspect: Aspect) -> str | None:
    """The answer about a column, if there is one."""
    return told.get(answer_key(plain_words(heading), aspect))


def quantity_of(key: str) -> ReportQuantity | None:
    """The units and limits of a column of figures; None where its figures enter no case."""
    return load_report_quantities().get("depth_to" if key == "depth_from" else key)


def path_of(key: str) -> str:
    """The key of the case file that a column enters; empty where a case has none."""
    known = load_report_quantities().get(key)
    return known.path if known is not None else TEXT_PATHS.get(key, "")
