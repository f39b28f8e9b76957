"""What is asked of a laboratory's file: the file, and whose it is."""

from __future__ import annotations

from loamshift.web.forms import Form, text, upload


class UploadForm(Form):
    """A file on its way into beds."""

    file = upload("intake-page-file", accept=".csv,.tsv,.txt,.xlsx,.xlsm,.xls,.ods,.pdf")
    laboratory = text(
        "intake-page-laboratory", hint="intake-page-laboratory-hint", most=120, list="laboratories"
    )
