"""A file that was uploaded, read again for each page; what was answered stays with it."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Final
from uuid import UUID

from django.db.models import QuerySet
from django.utils import timezone

from loamshift.case.intake.proposal import Proposal
from loamshift.case.intake.propose import propose
from loamshift.case.intake.sheet import Sheet
from loamshift.case.intake.sheets import read_sheets
from loamshift.domain.message import Given, message
from loamshift.domain.worded_error import WordedError
from loamshift.store.changes import KEPT_DAYS
from loamshift.store.models import Bed, Change, IntakeDraft, LaboratoryAnswers, Office, User
from loamshift.store.scope import kept
from loamshift.web.intake.asked import of_the_laboratory

LARGEST_BYTES: Final = 5_000_000
MOST_ROWS: Final = 200
"""Rows that one file may bring through the page; the command takes any number."""
MOST_LINES: Final = 20_000
"""Lines of a file, of which one sample may have many, beyond which they are not even counted."""


def drafts_of(office: Office, *, bed: Bed | None = None) -> QuerySet[IntakeDraft]:
    """Files of an office, the latest first; those past undoing are removed for good.

    Parameters
    ----------
    bed
        The bed whose files of weather are meant; without one those of laboratories.
    """
    limit = timezone.now() - timedelta(days=KEPT_DAYS)
    IntakeDraft.objects.filter(changed_at__lt=limit).delete()
    return IntakeDraft.objects.filter(office=office, bed=bed)


def new_draft(
    office: Office, data: bytes, *, name: str, laboratory: str, user: User | None
) -> IntakeDraft:
    """Keep a file that can be read, with what was answered for its laboratory before.

    Raises
    ------
    Refused
        Where it cannot be read.
    WordedError
        Where it is too large for a page, or has more rows than one takes.
    """
    if len(data) > LARGEST_BYTES:
        raise WordedError(
            message("intake-page-too-large", file=Given(name), most=LARGEST_BYTES // 1_000_000)
        )
    sheets = read_sheets(data, name)
    lines = sum(len(sheet.rows) for sheet in sheets)
    rows = lines if lines > MOST_LINES else len(propose(sheets, None).rows)
    if rows > MOST_ROWS:
        raise WordedError(
            message("intake-page-many-rows", file=Given(name), count=rows, most=MOST_ROWS)
        )
    known = LaboratoryAnswers.objects.filter(office=office, laboratory=laboratory).first()
    return IntakeDraft.objects.create(
        office=office,
        user=user,
        name=name,
        content=data,
        laboratory=laboratory,
        answers=dict(known.answers) if known is not None and laboratory else {},
    )


def read_draft(draft: IntakeDraft, *, today: date) -> tuple[tuple[Sheet, ...], Proposal]:
    """The sheets of a file and what was understood of them with the answers so far."""
    sheets = read_sheets(bytes(draft.content), draft.name)
    return sheets, propose(sheets, draft.answers, today=today)


def keep(draft: IntakeDraft) -> None:
    """Keep what was answered; nothing of it enters anything."""
    draft.changed_at = timezone.now()
    draft.save()


def remember(draft: IntakeDraft) -> None:
    """Keep the answers about columns for the next file of the same laboratory."""
    if draft.laboratory:
        LaboratoryAnswers.objects.update_or_create(
            office=draft.office,
            laboratory=draft.laboratory,
            defaults={"answers": of_the_laboratory(draft.answers)},
        )


def laboratories(office: Office) -> list[str]:
    """Laboratories whose answers are known."""
    rows = LaboratoryAnswers.objects.filter(office=office)
    return list(rows.values_list("laboratory", flat=True))


def act_that_stands(draft: IntakeDraft) -> UUID | None:
    """The act that entered a file, unless it has been undone."""
    if draft.act is None:
        return None
    rows = Change.objects.filter(office=draft.office, act=draft.act, taken_back=False)
    return draft.act if rows.exists() else None


def beds_of_act(office: Office, act: UUID | None) -> list[Bed]:
    """The beds that an act has brought something, by name; those deleted since left out."""
    if act is None:
        return []
    things = Change.objects.filter(office=office, act=act).values("thing")
    return list(kept(Bed, office).filter(pk__in=things).only("pk", "name"))
