"""What is asked to sign in, for a new password, for a key, and of the settings."""

from __future__ import annotations

from typing import Any, ClassVar, Final

from django import forms
from django.contrib.auth.forms import PasswordChangeForm
from django.http import HttpRequest

from loamshift.case.plain import is_clean
from loamshift.domain.message import message
from loamshift.domain.worded_error import fault
from loamshift.store.models import Office
from loamshift.web.forms import Form, Worded, text

MOST_LINES: Final = 6
"""A letterhead of more lines leaves a letter no room."""
_CODE_LENGTH: Final = 3


def secret(label: str, fills: str, *, hint: str = "", most: int | None = None) -> forms.CharField:
    """A field for a password; ``fills`` says to browsers which."""
    widget = forms.PasswordInput({"autocomplete": fills})
    return forms.CharField(label=label, help_text=hint, strip=False, max_length=most, widget=widget)


class SignInForm(Form):
    """Name and password."""

    name = text(
        "account-user-name",
        missing="page-fill-in",
        most=150,
        autocomplete="username",
        autocapitalize="none",
        spellcheck="false",
    )
    password = secret("account-password", "current-password", most=4096)

    def __init__(self, request: HttpRequest, **more: Any) -> None:
        super().__init__(request, **more)
        first = "password" if self.data.get("name") else "name"
        self.fields[first].widget.attrs["autofocus"] = True


class PasswordForm(Worded, PasswordChangeForm):
    """One's own password, the old one first."""

    codes: ClassVar = {
        f"password_{reason}": f"account-password-{reason.replace('_', '-')}"
        for reason in (
            *("incorrect", "mismatch", "too_short", "too_common"),
            *("entirely_numeric", "too_similar"),
        )
    }

    old_password = secret("account-password-now", "current-password")
    new_password1 = secret("account-password-new", "new-password", hint="account-password-hint")
    new_password2 = secret("account-password-again", "new-password")


class KeyForm(Form):
    """What a key is for."""

    name = text("account-key-for", missing="account-key-for-missing", most=80)


class SettingsForm(Form):
    """How an office likes to read."""

    codes: ClassVar = {"required": "page-choose-from-list"}

    name = text("settings-name", missing="settings-name-missing", most=120)
    units = forms.ChoiceField(
        label="settings-units",
        choices=[("metric", "settings-units-metric"), ("us", "settings-units-us")],
    )
    words = forms.ChoiceField(
        label="settings-words", choices=[("uk", "settings-words-uk"), ("us", "settings-words-us")]
    )
    paper = forms.ChoiceField(
        label="settings-paper",
        choices=[("a4", "settings-paper-a4"), ("letter", "settings-paper-letter")],
    )
    currency = text("settings-currency", hint="settings-currency-hint", size=4, dir="ltr")
    letterhead = text("settings-letterhead", hint="settings-letterhead-hint", rows=4)

    def clean_currency(self) -> str:
        """Three letters, or nothing."""
        code: str = self.cleaned_data["currency"].upper()
        if code and not (len(code) == _CODE_LENGTH and code.isascii() and code.isalpha()):
            self.refuse([fault("currency", message("settings-currency-wrong"))])
        return code

    def clean_letterhead(self) -> str:
        """So few lines that a letter has room for them."""
        head: str = self.cleaned_data["letterhead"]
        most = Office._meta.get_field("letterhead").max_length or 0
        lines = head.splitlines()
        if len(head) > most or len(lines) > MOST_LINES:
            wrong = message("settings-letterhead-long", lines=MOST_LINES, most=most)
            self.refuse([fault("letterhead", wrong)])
        elif not all(is_clean(line) for line in lines):
            self.refuse([fault("letterhead", message("settings-letterhead-unprintable"))])
        return "\n".join(lines)
