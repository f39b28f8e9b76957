"""What is asked of a question: its words and who asks, or a table of them."""

from __future__ import annotations

from loamshift.web.forms import Form, text, upload


class QuestionForm(Form):
    """One question, typed or pasted."""

    words = text("inbox-words", missing="inbox-nothing", rows=7)
    sender = text("inbox-sender", most=160)


class TableForm(Form):
    """Many questions, each a row."""

    table = upload("inbox-import-hint", accept=".csv,.tsv,.xlsx,.xls,.ods,.eml")
