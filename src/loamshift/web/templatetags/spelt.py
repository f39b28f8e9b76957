"""``{{ text|spelt:office }}``: a text of a template in the words an office reads."""

from __future__ import annotations

from typing import Any

from django import template

from loamshift.report.words import Words
from loamshift.store.models import Office

register = template.Library()


@register.filter
def spelt(text: Any, office: Any) -> str:
    """A text with UK or US spelling; as it is where there is no office."""
    if not isinstance(office, Office):
        return str(text)
    return Words(spelling=office.words, units=office.units).text(str(text))
