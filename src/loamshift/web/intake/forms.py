"""What is asked of a laboratory's file: the file, and whose it is."""

from __future__ import annotations

from typing import Final

from loamshift.web.forms import Form, text, upload

SHEETS: Final = ".csv,.tsv,.txt,.xlsx,.xlsm,.xls,.ods"


class UploadForm(Form):
    """A file on its way into beds."""

    file = upload(
        "intake-page-file",
        hint="intake-page-kinds",
        accept=".csv,.tsv,.txt,.xlsx,.xlsm,.xls,.ods,.pdf",
    )
    laboratory = text(
        "intake-page-laboratory", hint="intake-page-laboratory-hint", most=120, list="laboratories"
    )


class WeatherForm(Form):
    """A file of a weather station or a soil thermometer."""

    file = upload(
        "weather-page-file",
        hint="weather-page-kinds",
        accept=".csv,.tsv,.txt,.dat,.xlsx,.xlsm,.xls,.ods",
    )
