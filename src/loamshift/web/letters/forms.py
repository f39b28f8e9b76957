"""What is asked about a letter: the office's own note."""

from __future__ import annotations

from loamshift.domain.message import Given, Message, message
from loamshift.store.models import SentLetter
from loamshift.web.forms import text
from loamshift.web.kept_form import KeptForm


class NoteForm(KeptForm[SentLetter]):
    """The office's own note on a letter."""

    columns = ("note",)

    note = text("letters-note-hint", rows=3)

    def what(self) -> Message:
        """A note changed."""
        return message("letters-note-changed", letter=Given(self.thing.title))
