"""Weather of a bed: its files uploaded, answered, confirmed and undone, and that of the archive."""

from __future__ import annotations

from datetime import date
from typing import Any, Final
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods, require_POST

from loamshift.case.mend import Mend
from loamshift.case.weather.read import WeatherFile
from loamshift.domain.message import Given, Message, Prose, Worded, message
from loamshift.domain.worded_error import WordedFault
from loamshift.errors import CaseError, InputError
from loamshift.report.messages import say
from loamshift.report.messages.refusal import refusal
from loamshift.services.context.build_context import build_context
from loamshift.services.context.soil_thermometer import weather_said
from loamshift.store.models import Bed, IntakeDraft
from loamshift.web.acts import writer_of
from loamshift.web.beds.keeping import put_case
from loamshift.web.cases import case_of
from loamshift.web.intake.asked import FIELD
from loamshift.web.intake.drafts import LARGEST_BYTES, act_that_stands, keep
from loamshift.web.intake.forms import WeatherForm
from loamshift.web.intake.views.upload import LONGEST_NAME, MOST
from loamshift.web.intake.weather import (
    asked_columns,
    months_of,
    new_weather_file,
    order_select,
    remarks_of,
    sheets_of,
    table_of,
    understood,
    used_readings,
    weather_files,
    with_weather,
)
from loamshift.web.middleware import kept_or_404, office_of
from loamshift.web.notices import notify, notify_done, person_of
from loamshift.web.online_weather import with_weather_or_why
from loamshift.web.problems import whole_fault
from loamshift.web.wording import words_for

_ROWS_SHOWN: Final = 40
_LONGEST_ANSWER: Final = 40


@require_http_methods(["GET", "HEAD", "POST"])
def bed_weather(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Which weather a bed's letter uses, its files, and a new one uploaded."""
    bed = kept_or_404(request, Bed, pk)
    form = WeatherForm(request, values=MOST)
    if form.is_valid():
        sent = form.cleaned_data["file"]
        data, name = sent.read(LARGEST_BYTES + 1), (sent.name or "")[:LONGEST_NAME]
        try:
            draft = new_weather_file(bed, data, name=name, user=person_of(request))
        except InputError as error:
            form.refuse([whole_fault(error, path="file")])
        except Mend as mend:
            form.refuse([WordedFault("file", "", "", "", Prose((mend.wrong, *mend.right)))])
        else:
            return redirect("weather-file", pk=bed.pk, weather=draft.pk)
    weather, why = _weather_of(request, bed)
    context = {
        "bed": bed,
        "weather": weather,
        "why": why,
        "files": weather_files(bed).defer("content"),
        "online": office_of(request).online_weather,
        "form": form,
    }
    return render(request, "intake/weather.html", context, status=form.status)


@require_POST
def online(request: HttpRequest, pk: UUID) -> HttpResponse:
    """Turn the weather of the archive on or off, for all beds of the office."""
    bed = kept_or_404(request, Bed, pk)
    office = office_of(request)
    office.online_weather = request.POST.get("online") == "on"
    office.save(update_fields=["online_weather"])
    state = "on" if office.online_weather else "off"
    notify(request, message("weather-page-online-saved", state=state))
    return redirect("bed-weather", pk=bed.pk)


@require_http_methods(["GET", "HEAD", "POST"])
def file(request: HttpRequest, pk: UUID, weather: UUID) -> HttpResponse:
    """The file beside what was understood; a form keeps answers, or enters what is confirmed."""
    bed = kept_or_404(request, Bed, pk)
    draft = get_object_or_404(weather_files(bed), pk=weather)
    if request.method != "POST":
        return _page(request, bed, draft)
    if act_that_stands(draft) is not None:
        return redirect("weather-file", pk=pk, weather=weather)
    if request.POST.get("do") == "again":
        draft.answers = {}
        keep(draft)
        return redirect("weather-file", pk=pk, weather=weather)
    new = _new_answers(request, draft)
    draft.answers = {**draft.answers, **new}
    keep(draft)
    if request.POST.get("do") != "enter":
        return redirect("weather-file", pk=pk, weather=weather)
    if new:
        notify(request, message("weather-page-look-again"))
        return redirect("weather-file", pk=pk, weather=weather)
    return _enter(request, bed, draft)


@require_POST
def delete(request: HttpRequest, pk: UUID, weather: UUID) -> HttpResponse:
    """Remove a file; what it has entered stays."""
    bed = kept_or_404(request, Bed, pk)
    draft = get_object_or_404(weather_files(bed), pk=weather)
    draft.delete()
    notify(request, message("intake-page-deleted", file=Given(draft.name)))
    return redirect("bed-weather", pk=bed.pk)


def _new_answers(request: HttpRequest, draft: IntakeDraft) -> dict[str, str]:
    """What a form says that the file does not say already."""
    try:
        table = table_of(draft, sheets_of(draft))
    except Mend:
        stands: dict[str, str] = {}
    else:
        words = words_for(request)
        fields = [one for column in asked_columns(table, words) for one in column.fields]
        order = order_select(table, words)
        stands = {one.name: one.chosen for one in (*fields, *((order,) if order else ()))}
    return {
        name.removeprefix(FIELD): told
        for name, value in request.POST.items()
        if name.startswith(FIELD)
        and (told := str(value).strip()[:_LONGEST_ANSWER]) not in ("", stands.get(name))
    }


def _enter(request: HttpRequest, bed: Bed, draft: IntakeDraft) -> HttpResponse:
    today = date.today()  # noqa: DTZ011 - the local day
    seen = bed.version
    try:
        found = understood(table_of(draft, sheets_of(draft)))
        put_case(bed, with_weather(bed.case_json, found, today=today), today=today)
        what = message("weather-page-entered", bed=Given(bed.name), file=Given(draft.name))
        writer = writer_of(request, what)
        writer.change(bed, seen_version=seen)
    except Mend:
        return redirect("weather-file", pk=bed.pk, weather=draft.pk)  # the page says what is wrong
    except CaseError as error:
        return _page(request, bed, draft, faults=error.faults)
    except InputError as error:
        return _page(request, bed, draft, wrong=refusal(error, words_for(request)))
    draft.act = writer.act
    keep(draft)
    notify_done(request, writer)
    return redirect("weather-file", pk=bed.pk, weather=draft.pk)


def _page(request: HttpRequest, bed: Bed, draft: IntakeDraft, **wrong: Any) -> HttpResponse:
    words, today = words_for(request), date.today()  # noqa: DTZ011 - the local day
    sheets = sheets_of(draft)
    found: WeatherFile | None = None
    mended, columns, order = "", [], None
    try:
        table = table_of(draft, sheets)
        columns, order = list(asked_columns(table, words)), order_select(table, words)
        found = understood(table)
    except Mend as mend:
        mended = _mended(request, mend)
    readings = () if found is None else used_readings(found, today=today)
    context = {
        "bed": bed,
        "draft": draft,
        "act": act_that_stands(draft),
        "mended": mended,
        "columns": columns,
        "order": order,
        "remarks": [] if found is None else remarks_of(found, today=today),
        "months": [] if found is None else months_of(found, words),
        "has_rain": found is not None
        and found.climate is not None
        and found.climate.rain_mm is not None,
        "readings": readings,
        "soil": "" if not readings else say(_soil_told(readings), words),
        "sheets": [(sheet, sheet.rows[:_ROWS_SHOWN], len(sheet.rows)) for sheet in sheets],
        **wrong,
    }
    return render(request, "intake/weather_file.html", context, status=422 if wrong else 200)


def _soil_told(readings: tuple[tuple[date, float, float], ...]) -> Message:
    return message("weather-page-soil", n=len(readings), first=readings[0][0], last=readings[-1][0])


def _mended(request: HttpRequest, mend: Mend) -> str:
    return say(Prose((mend.wrong, *mend.right)), words_for(request))


def _weather_of(request: HttpRequest, bed: Bed) -> tuple[str, str]:
    """Which weather the letter of a bed uses, and why it is not that of the archive."""
    office, words = office_of(request), words_for(request)
    why: Worded | None = None
    try:
        case = case_of(bed.case_json, today=date.today())  # noqa: DTZ011 - the local day
    except InputError:
        return "", ""
    if office.online_weather:
        case, why = with_weather_or_why(case)
    said = " ".join(say(one, words) for one in weather_said(build_context(case)))
    return said, "" if why is None else say(why, words)
