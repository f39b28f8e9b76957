"""Settings: how the office likes to read, where its data lies, and what always holds."""

from __future__ import annotations

from collections.abc import Mapping
from importlib import metadata
from typing import Final

from django.conf import settings as django_settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import URLPattern, path
from django.views.decorators.http import require_http_methods

from loamshift.case.plain import is_clean
from loamshift.domain.message import Message, message
from loamshift.report.letter_care import RULES_LINE, caution_label
from loamshift.report.letter_words import sentence
from loamshift.report.messages import say
from loamshift.services.advise import FORECAST_MODEL
from loamshift.store.models import Office
from loamshift.tables.rows import tables_fingerprint
from loamshift.tables.rules import caution_text, load_cautions
from loamshift.web.answers import words_of
from loamshift.web.middleware import office_of
from loamshift.web.notices import notify

CHOICES: Final[Mapping[str, tuple[tuple[str, Message], ...]]] = {
    "units": (
        ("metric", message("settings-units-metric")),
        ("us", message("settings-units-us")),
    ),
    "words": (("uk", message("settings-words-uk")), ("us", message("settings-words-us"))),
    "paper": (("a4", message("settings-paper-a4")), ("letter", message("settings-paper-letter"))),
}
ALWAYS: Final = (
    "sulfur-dust",
    "caustic-lime",
    "acid-handling",
    "ammonia",
    "hydrogen-sulfide",
    "acid-sulfate",
    "metals",
    "children-pets",
)
"""Cautions that hold whatever a letter says."""
_CODE_LENGTH: Final = 3
KEPT: Final = ("name", *CHOICES, "currency", "letterhead")
"""What the form keeps."""
MOST_LINES: Final = 6
"""A letterhead of more lines leaves a letter no room."""


@require_http_methods(["GET", "HEAD", "POST"])
def settings(request: HttpRequest) -> HttpResponse:
    """Show the settings, and keep them changed."""
    office = office_of(request)
    if request.method != "POST":
        return _page(request, said_of(office), {})
    said = {key: request.POST.get(key, "").strip() for key in KEPT}
    said["letterhead"] = "\n".join(said["letterhead"].splitlines())
    said["currency"] = said["currency"].upper()
    faults = faults_in(said)
    if faults:
        return _page(request, said, faults)
    for key, value in said.items():
        setattr(office, key, value)
    office.save(update_fields=list(said))
    notify(request, message("settings-saved"))
    return redirect("settings")


def said_of(office: Office) -> dict[str, str]:
    """The settings as the form shows them."""
    return {key: getattr(office, key) for key in KEPT}


def faults_in(said: Mapping[str, str]) -> dict[str, Message]:
    """What keeps settings from being saved, by field."""
    faults = {}
    most = Office._meta.get_field("name").max_length or 0
    if not said["name"]:
        faults["name"] = message("settings-name-missing")
    elif len(said["name"]) > most or "\x00" in said["name"]:
        faults["name"] = message("page-shorten", most=most)
    for key, choices in CHOICES.items():
        if said[key] not in dict(choices):
            faults[key] = message("page-choose-from-list")
    most = Office._meta.get_field("letterhead").max_length or 0
    lines, signs = said["letterhead"].splitlines(), len(said["letterhead"])
    if signs > most or len(lines) > MOST_LINES:
        faults["letterhead"] = message("settings-letterhead-long", lines=MOST_LINES, most=most)
    elif not all(is_clean(line) for line in lines):
        faults["letterhead"] = message("settings-letterhead-unprintable")
    code = said["currency"]
    if code and not (len(code) == _CODE_LENGTH and code.isascii() and code.isalpha()):
        faults["currency"] = message("settings-currency-wrong")
    return faults


def _page(
    request: HttpRequest, said: Mapping[str, str], faults: Mapping[str, Message]
) -> HttpResponse:
    office = office_of(request)
    words = words_of(office)
    rules = load_cautions()
    context = {
        "said": said,
        "faults": faults,
        "fields": [
            ("units", message("settings-units"), CHOICES["units"], said["units"]),
            ("words", message("settings-words"), CHOICES["words"], said["words"]),
            ("paper", message("settings-paper"), CHOICES["paper"], said["paper"]),
        ],
        "folder": "" if django_settings.OFFICE_MODE else str(django_settings.DATA_FOLDER),
        "version": metadata.version("loamshift"),
        "tables": tables_fingerprint(),
        "model": FORECAST_MODEL,
        "licence": _licence(),
        "always": [
            (caution_label(code, words=words), sentence(caution_text(rules[code], rules), words))
            for code in ALWAYS
        ],
        "closing": say(RULES_LINE, words),
    }
    return render(request, "account/settings.html", context, status=422 if faults else 200)


def _licence() -> str:
    """The licence as the installed package states it."""
    told = metadata.metadata("loamshift").json
    return str(told.get("license_expression") or told.get("license") or "Apache-2.0")


ROUTES: list[URLPattern] = [path("settings/", settings, name="settings")]
