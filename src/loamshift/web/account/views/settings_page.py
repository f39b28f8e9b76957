"""Settings: how the office likes to read, where its data lies, and what always holds."""

from __future__ import annotations

from importlib import metadata
from typing import Final

from django.conf import settings as django_settings
from django.forms.models import model_to_dict
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from loamshift.domain.message import message
from loamshift.report.letter_care import RULES_LINE, caution_label
from loamshift.report.letter_words import sentence
from loamshift.report.messages import say
from loamshift.services.advise import FORECAST_MODEL
from loamshift.tables.rows import tables_fingerprint
from loamshift.tables.rules import caution_text, load_cautions
from loamshift.web.account.forms import SettingsForm
from loamshift.web.middleware import office_of
from loamshift.web.notices import notify
from loamshift.web.wording import words_of

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


@require_http_methods(["GET", "HEAD", "POST"])
def settings(request: HttpRequest) -> HttpResponse:
    """Show the settings, and keep them changed."""
    office = office_of(request)
    form = SettingsForm(request, initial=model_to_dict(office, SettingsForm.base_fields))
    if form.is_valid():
        for key, value in form.cleaned_data.items():
            setattr(office, key, value)
        office.save(update_fields=list(form.cleaned_data))
        notify(request, message("settings-saved"))
        return redirect("settings")
    words = words_of(office)
    rules = load_cautions()
    context = {
        "form": form,
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
    return render(request, "account/settings.html", context, status=form.status)


def _licence() -> str:
    """The licence as the installed package states it."""
    told = metadata.metadata("loamshift").json
    return str(told.get("license_expression") or told.get("license") or "Apache-2.0")
