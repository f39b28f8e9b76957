from __future__ import annotations

import re
from collections.abc import Iterator

import pytest
from django import forms
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client as Browser
from django.urls import get_resolver

from loamshift.report.words import Words
from loamshift.store.models import Office
from loamshift.web.forms import CODES, Form, Worded
from loamshift.web.kept_form import KeptForm
from loamshift.web.products.product_label import LABEL_GROUPS

BOOK = Words().book
SIGNS = {name for _, rows in LABEL_GROUPS for name in rows.values() if "-" not in name}
"""What is called by a sign of chemistry, the same in every language."""


def every_form() -> Iterator[type[Worded]]:
    """The forms of all pages, each once."""
    assert get_resolver().url_patterns  # brings every folder's forms in
    todo: list[type[Worded]] = [Worded]
    while todo:
        found = todo.pop().__subclasses__()
        todo += found
        yield from (one for one in found if one not in (Form, KeptForm) and one.base_fields)


def reasons(field: forms.Field) -> Iterator[str]:
    """Why Django may refuse a field by itself, by its codes."""
    if field.required:
        yield "required"
    if isinstance(field, forms.ChoiceField):
        yield "invalid_choice"
    for validator in field.validators:
        yield getattr(validator, "code", "")


def test_every_label_hint_and_reason_of_a_form_is_a_message() -> None:
    wrong, seen = [], 0
    for form in every_form():
        for name, field in form.base_fields.items():
            seen += 1
            texts = [text for text in (field.label, field.help_text) if text]
            listed = field.choices if type(field) is forms.ChoiceField else []
            texts += [label for value, label in listed if label != value]  # type: ignore[misc]
            wrong += [
                f"{form.__name__}.{name}: {t}" for t in texts if t not in BOOK and t not in SIGNS
            ]
            for code in reasons(field):
                own = str(field.error_messages.get(code, ""))
                if own not in BOOK and code not in CODES | form.codes:
                    wrong.append(f"{form.__name__}.{name}: {code}")
    assert wrong == [] and seen > 50


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("address", "typed"),
    [
        ("/clients/new", {"name": " ", "note": "Ring first"}),
        ("/gardens/new", {"name": "", "client": "x", "place": "Atlantis upon Sea"}),
        ("/shelf/new", {"name": "A", "material": "moon dust", "price": "x"}),
        ("/settings/", {"name": "a\x00", "units": "cubits", "currency": "Euro"}),
        ("/inbox/", {"words": "\x00"}),
        ("/intake/", {"laboratory": "x" * 121}),
        ("/settings/data/bring-in", {"how": "burn"}),
        ("/shelf/prices", {}),
    ],
)
def test_what_is_wrong_stands_at_its_control_and_is_read_out_with_it(
    client: Browser, address: str, typed: dict[str, str]
) -> None:
    Office.objects.create()
    answer = client.post(address, typed)
    page = answer.content.decode()
    assert answer.status_code == 422
    wrong = re.findall(r"<(?:input|select|textarea)[^>]* aria-invalid=\"true\"[^>]*>", page)
    assert wrong
    for control in wrong:
        (said,) = re.findall(r'aria-describedby="([^" ]+)"', control)
        at = page.index(f'id="{said}"')
        assert page[at : at + 200].split(">", 1)[1].startswith('<span class="fault">'), control
    for django in ("This field", "Enter a valid", "Select a valid", "Null characters", "Ensure"):
        assert django not in page


@pytest.mark.django_db
def test_a_file_that_was_chosen_is_no_reason_to_ask_for_one(client: Browser) -> None:
    Office.objects.create()
    page = client.post("/shelf/prices", {"list": SimpleUploadedFile("p.csv", b"x")})
    assert page.status_code == 422 and "No file was chosen" not in page.content.decode()
