"""The page for a class, and its worksheet on paper; the address holds every choice."""

from __future__ import annotations

from datetime import date

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.views.decorators.http import require_safe

from loamshift.domain.message import Product, message
from loamshift.domain.worded_error import fault
from loamshift.errors import CaseError, Fault, InputError
from loamshift.report.lesson import lesson_letter, worksheet_letter
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.tables.materials import load_materials
from loamshift.tables.soils import load_textures
from loamshift.web.answers import paper_of
from loamshift.web.downloads import download
from loamshift.web.lesson.asked import LISTS, TYPED, asked, choices, lesson_asked
from loamshift.web.letters.letter_plain import letter_plain
from loamshift.web.letters.letter_style import letter_style_name
from loamshift.web.letters.press import press
from loamshift.web.middleware import office_of
from loamshift.web.wording import words_of


@require_safe
def lesson(request: HttpRequest) -> HttpResponse:
    """Choose a soil, water and a material; the layers below show what they do."""
    words = words_of(office_of(request))
    said = asked(request.GET, words)
    faults: tuple[Fault, ...] = ()
    sections = about = ""
    if request.GET:
        try:
            letter = lesson_letter(lesson_asked(said, today=_today()), words=words)
            sections, about = letter_plain(letter, words=words), letter.subtitle
        except CaseError as error:
            faults = tuple(error.faults)
        except InputError:
            faults = (fault("soil.ph", message("claims-give-ph")),)
    fields = {name: _fault_of(name, faults) for name in TYPED}
    context = {
        "said": said,
        "faults": fields,
        "elsewhere": [one for one in faults if one not in fields.values()],
        **{name: choices(said, name) for name in LISTS},
        "textures": [(key, texture.name) for key, texture in load_textures().items()],
        "months": [(str(month), words.month(month)) for month in range(1, 13)],
        "materials": sorted(_name(key, words) for key in load_materials()),
        "sections": sections,
        "about": about,
        "query": request.GET.urlencode(),
        "style": letter_style_name(),
    }
    return render(request, "lesson/lesson.html", context)


@require_safe
def worksheet(request: HttpRequest) -> HttpResponse:
    """The worksheet of the lesson that the address asks for."""
    office = office_of(request)
    words = words_of(office)
    try:
        found = lesson_asked(asked(request.GET, words), today=_today())
    except InputError:
        return redirect(f"{reverse('lesson')}?{request.GET.urlencode()}")
    sheet = worksheet_letter(found, words=words)
    data = press(sheet, paper=paper_of(office), words=words)
    return download(data, name=sheet.title, tail=".pdf", kind="application/pdf")


def _today() -> date:
    return date.today()  # noqa: DTZ011 - the local day


def _fault_of(name: str, faults: tuple[Fault, ...]) -> Fault | None:
    """What is wrong with a field, by the path of its key in a case."""
    key = TYPED[name].replace("claim.0.", "claim[1].")
    return next((one for one in faults if one.path in (key, TYPED[name])), None)


def _name(key: str, words: Words) -> str:
    return say(message("claim-material", material=Product(key)), words)
