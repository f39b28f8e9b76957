"""Data and backups: everything exported, restored, and backed up."""

from __future__ import annotations

from typing import Any, Final

from django.conf import settings
from django.core.files.uploadedfile import UploadedFile
from django.db import connection
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from loamshift.domain.message import Given, Prose, Value, message
from loamshift.domain.worded_error import fault
from loamshift.errors import Fault, InputError
from loamshift.store.archive import ArchiveFault, Limits
from loamshift.store.export import store_zip
from loamshift.store.models import Bed, Client, Office
from loamshift.store.put_in import PutIn, add_missing, is_empty, replace_all
from loamshift.store.restore import Archive, read_zip
from loamshift.store.scope import kept, put_away
from loamshift.web.data.backups import BACKUPS, BEFORE_RESTORE, BY_HAND, back_up
from loamshift.web.data.forms import RestoreForm
from loamshift.web.downloads import download
from loamshift.web.middleware import office_of
from loamshift.web.notices import notify, notify_undo, person_of
from loamshift.web.problems import whole_fault
from loamshift.web.wording import said

MOST_BACKUPS_SHOWN: Final = 12
LIMITS: Final = Limits()


@require_safe
def data(request: HttpRequest) -> HttpResponse:
    """What can be taken out, brought in and kept."""
    return _page(request)


@require_safe
def everything(request: HttpRequest) -> HttpResponse:
    """The whole store of the office as a zip."""
    now = timezone.now()
    office = office_of(request)
    name = f"{office.name} {now:%Y-%m-%d}"
    zipped = store_zip(office, now=now, about=said(request, message("store-about")))
    return download(zipped, name=name, tail=".zip", kind="application/zip")


@require_POST
def bring_in(request: HttpRequest) -> HttpResponse:
    """Bring in a zip: add what is missing, or put it in the place of everything."""
    office = office_of(request)
    form = RestoreForm(request, values=_values(office))
    if not form.is_valid():
        return _page(request, form=form)
    replace = form.cleaned_data["how"] == "replace"
    try:
        archive = read_zip(_bytes_of(form.cleaned_data["zip"]), limits=LIMITS)
        if replace and archive.scope != "store":
            raise ArchiveFault(
                [fault("", message("data-is-one-client"), message("data-add-instead"))]
            )
        if replace and not is_empty(office) and not form.cleaned_data["sure"]:
            raise ArchiveFault([fault("", message("data-not-sure"), message("data-tick-box"))])
        if replace or (archive.scope == "store" and is_empty(office)):
            backup = back_up(settings.DATA_FOLDER, why=BEFORE_RESTORE)
            _tell(request, replace_all(archive, office))
            if backup is not None and not settings.OFFICE_MODE:
                notify(request, message("data-before-kept", file=Given(str(backup))))
        else:
            _tell(request, _added(request, archive))
    except ArchiveFault as error:
        return _page(request, form=form, faults=error.faults, more=error.more)
    except InputError as error:
        return _page(request, form=form, faults=(whole_fault(error),))
    return redirect("data")


@require_POST
def keep_backup(request: HttpRequest) -> HttpResponse:
    """Keep a copy of the whole database now."""
    if settings.OFFICE_MODE:
        raise Http404
    target = back_up(settings.DATA_FOLDER, why=BY_HAND)
    notify(request, message("data-backed-up", file=Given(str(target))))
    return redirect("data")


def _added(request: HttpRequest, archive: Archive) -> PutIn:
    what = message("data-restored-from", day=archive.made_at.date())
    return add_missing(archive, office_of(request), user=person_of(request), what=what)


def _tell(request: HttpRequest, done: PutIn) -> None:
    sentences = [message("data-added", n=done.added)]
    if done.left:
        sentences.append(message("data-left", n=done.left))
    if done.differing:
        sentences.append(message("data-differing", n=done.differing))
    notify_undo(request, Prose(tuple(sentences)), done.act)


def _bytes_of(upload: UploadedFile[Any]) -> bytes:
    if (upload.size or 0) > LIMITS.packed:
        wrong = message(
            "store-zip-large",
            mb=(upload.size or 0) // 1_000_000,
            most=LIMITS.packed // 1_000_000,
        )
        raise ArchiveFault([fault("", wrong, message("store-restore-by-command"))])
    return bytes(upload.read())


def _values(office: Office) -> dict[str, Value]:
    """What the form to restore says: how many beds are here, and how large a zip may be."""
    return {"beds": kept(Bed, office).count(), "most": LIMITS.packed // 1_000_000}


def _page(
    request: HttpRequest,
    *,
    form: RestoreForm | None = None,
    faults: tuple[Fault, ...] = (),
    more: int = 0,
) -> HttpResponse:
    office = office_of(request)
    form = form or RestoreForm(request, typed=False, values=_values(office))
    context: dict[str, Any] = {
        "form": form,
        "faults": faults,
        "more": more,
        "clients": kept(Client, office),
        "leaving": put_away(Client, office).order_by("deleted_at"),
        "empty": is_empty(office),
        "postgresql": connection.vendor == "postgresql",
    }
    if not settings.OFFICE_MODE:
        place = settings.DATA_FOLDER / BACKUPS
        found = sorted(place.glob("loamshift-*"), reverse=True) if place.is_dir() else []
        context |= {"backups": [one.name for one in found[:MOST_BACKUPS_SHOWN]], "place": place}
    return render(request, "data/data.html", context, status=422 if faults else form.status)
