"""Putting a case into a bed, and with it the few words that lists show."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any
from uuid import UUID

from loamshift.domain.case import Case
from loamshift.domain.message import message
from loamshift.domain.worded_error import WordedError
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.services.advise import advise
from loamshift.services.context.readings import current_reading
from loamshift.store.models import Bed, Garden, Office
from loamshift.store.scope import kept
from loamshift.web.cases import case_of, case_of_text, text_of_bed

LONGEST_NAME, LONGEST_PLANTS = 160, 300


def put_case(bed: Bed, given: Mapping[str, Any] | str, *, today: date) -> Case:
    """Give a bed a case, and draw out of it what lists show.

    Parameters
    ----------
    given
        The keys of the case; or the text of a case file, whose remarks are kept.

    Raises
    ------
    CaseError
        Where the case cannot be used; the bed stays as it is.
    """
    if isinstance(given, str):
        case = case_of_text(given, today=today)
    else:
        case = case_of(given, today=today)
    decision = str(advise(case).verdict.decision)
    reading = current_reading(case)
    if not isinstance(given, str):
        bed.take_case({"case": 1, **given})
    elif given != text_of_bed(bed):
        bed.case_text = given
    bed.name = (case.name or say(message("beds-unnamed"), Words()))[:LONGEST_NAME]
    bed.plants = ", ".join(plant.name for plant in case.aim.plants)[:LONGEST_PLANTS]
    bed.ph = None if reading is None else reading.ph
    bed.decision = decision
    return case


def garden_called(office: Office, key: str) -> Garden | None:
    """The garden of an office with this id; None for an empty id.

    Raises
    ------
    InputError
        Where the office has no such garden.
    """
    if not key:
        return None
    try:
        garden = kept(Garden, office).filter(pk=UUID(key)).first()
    except ValueError:
        garden = None
    if garden is None:
        raise WordedError(message("beds-garden-gone"))
    return garden
