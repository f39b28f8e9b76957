"""Forms as every page has them: Django's, with labels, hints and errors from the message files."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any, ClassVar, Final

from django import forms
from django.core.exceptions import NON_FIELD_ERRORS, ValidationError
from django.http import HttpRequest

from loamshift.domain.message import Message, Value, message
from loamshift.domain.worded_error import fault
from loamshift.errors import Fault
from loamshift.report.messages import say
from loamshift.report.words import Words
from loamshift.web.wording import words_for

CODES: Final[Mapping[str, str]] = {
    "required": "page-fill-in",
    "invalid_choice": "page-choose-from-list",
    "max_length": "page-shorten",
    "null_characters_not_allowed": "store-bad-character",
}
"""What is said of Django's reasons, by the codes it has for them."""
_LIMITS: Final = {"limit_value": "most", "min_length": "least"}
"""Figures of a reason that its message says, by the names that Django has for them."""
_PLAIN: Final = (forms.TextInput, forms.Textarea)


class Asked(forms.BoundField):
    """A field as it stands on a page: what is wrong with it, and what somebody else saved there."""

    @property
    def faults(self) -> list[Fault]:
        """What is wrong with it."""
        return self._form.faults_of(self.name)

    @property
    def now(self) -> Message | None:
        """What somebody else saved there meanwhile."""
        return self._form.now.get(self.name)

    @property
    def said(self) -> str:
        """The id of what is said about it."""
        return f"{self.auto_id or self.name}-said"

    @property
    def aria_describedby(self) -> str:
        """The same, where Django asks for it."""
        return "" if self.is_hidden else self.said

    @property
    def _form(self) -> Worded:
        assert isinstance(self.form, Worded)
        return self.form


class Worded(forms.BaseForm):
    """What all forms share; labels, hints, choices and errors are keys of messages.

    Parameters
    ----------
    typed
        False where another form of the page was sent; by itself, where anything was.
    values
        What labels and hints say besides.
    """

    bound_field_class = Asked
    codes: ClassVar[Mapping[str, str]] = {}
    """What this form says of a reason in place of what all say."""

    def __init__(
        self,
        request: HttpRequest,
        *,
        typed: bool | None = None,
        at: str = "p-%s",
        values: Mapping[str, Value] | None = None,
        **more: Any,
    ) -> None:
        is_sent = request.method == "POST" if typed is None else typed
        self.request, self.reader = request, words_for(request)
        self.now: dict[str, Message] = {}
        if is_sent:
            data = request.POST.copy()
            for name, texts in data.lists():
                data.setlist(name, [str(one).replace("\r\n", "\n") for one in texts])
            more |= {"data": data, "files": request.FILES}
        super().__init__(auto_id=at, **more)
        for field in self.fields.values():
            _word(field, self.reader, values or {})

    @property
    def status(self) -> int:
        """That of the page the form stands on [number]."""
        return 422 if self.errors else 200

    @property
    def whole(self) -> list[Fault]:
        """Faults for which no field is to blame."""
        return self.faults_of(NON_FIELD_ERRORS)

    def faults_of(self, name: str) -> list[Fault]:
        """What is wrong with a field."""
        found = self.errors.get(name)
        return [self._fault(name, one) for one in found.as_data()] if found else []

    def refuse(self, faults: Iterable[Fault]) -> None:
        """Tell faults beside the fields they name, the others above the form."""
        for one in faults:
            field = one.path if one.path in self.fields else None
            self.add_error(field, ValidationError(one.problem, "told", {"fault": one}))

    def _fault(self, name: str, error: ValidationError) -> Fault:
        params, code = error.params or {}, str(error.code)
        told = params.get("fault")
        if isinstance(told, Fault):
            return told
        own, book = str(error.message), self.reader.book
        key = own if own in book else self.codes.get(code, CODES.get(code, "page-not-taken"))
        figures = {_LIMITS[known]: int(params[known]) for known in _LIMITS if known in params}
        return fault(name, message(key, **figures))


class Form(Worded, forms.Form):
    """A form with fields of its own."""


class Names(forms.Select):
    """A choice of names that people gave, each in the direction it reads."""

    def create_option(self, *args: Any, **more: Any) -> dict[str, Any]:
        """One name."""
        option = super().create_option(*args, **more)
        option["attrs"]["dir"] = "auto"
        return option


def _word(field: forms.Field, words: Words, values: Mapping[str, Value]) -> None:
    """Put the words of a field into the reader's; a text that is no message stays."""
    field.label = worded_text(field.label, words, **values)
    field.help_text = worded_text(field.help_text, words, **values)
    if isinstance(field, forms.ModelChoiceField):
        field.empty_label = worded_text(field.empty_label, words)
    elif isinstance(field, forms.ChoiceField):
        listed: Any = field.choices
        field.choices = [(value, worded_text(label, words)) for value, label in listed]
    attrs = field.widget.attrs
    if type(field.widget) in _PLAIN:
        attrs.setdefault("autocomplete", "off")
        if "inputmode" not in attrs:
            attrs.setdefault("dir", "auto")


def worded_text(text: Any, words: Words, **values: Value) -> str:
    """A message by its key; a text that is none stays as it is."""
    key = str(text or "")
    return say(message(key, **values), words) if key in words.book else key


def text(
    label: str,
    *,
    hint: str = "",
    missing: str = "",
    rows: int = 0,
    most: int | None = None,
    **attrs: Any,
) -> forms.CharField:
    """A field for a text.

    Parameters
    ----------
    missing
        What is said where nothing is typed, if something has to be.
    rows
        Lines that show, where it may have several [count].
    most
        The longest [characters].
    """
    return forms.CharField(
        label=label,
        help_text=hint,
        required=bool(missing),
        max_length=most,
        error_messages={"required": missing},
        widget=forms.Textarea({"rows": rows, **attrs}) if rows else forms.TextInput(attrs),
    )


def upload(label: str, *, accept: str, hint: str = "") -> forms.FileField:
    """A field for a file of such endings and types."""
    return forms.FileField(
        label=label,
        help_text=hint,
        allow_empty_file=True,
        widget=forms.FileInput({"accept": accept}),
        error_messages=dict.fromkeys(("required", "invalid", "missing"), "page-choose-file"),
    )
