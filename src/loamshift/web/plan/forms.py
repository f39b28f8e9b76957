"""What is asked to keep quick advice as a bed, and of a letter that is sent."""

from __future__ import annotations

from loamshift.web.forms import Form, text


class KeepForm(Form):
    """What a walk-in is kept as, and for whom."""

    prefix = "keep"

    name = text("page-name", most=160)
    client = text("page-client", hint="advice-client-hint", most=160, list="clients")
    garden = text("page-garden", most=160, list="gardens")
