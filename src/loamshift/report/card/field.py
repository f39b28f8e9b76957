"""The driver's sheet: the map of rates, loads by zone, and what to check before starting."""

from __future__ import annotations

from loamshift.domain.card import Card, CardKind, Choices, Log, Part
from loamshift.domain.field import FieldMap
from loamshift.domain.message import (
    Given,
    Measure,
    Message,
    Product,
    Quantity,
    amount,
    message,
)
from loamshift.report.card.text import cautions_listed, closing
from loamshift.report.field_letter import field_cautions, field_lead, listed_letters
from loamshift.report.figures.field import rates_figure, zones_table
from loamshift.report.messages import say
from loamshift.report.words import Words

_LOG = ("zone", "date", "load", "by")


def field_card(found: FieldMap, *, words: Words) -> Card:
    """One sheet for whoever drives the spreader."""
    words = words.on("field")

    def heading(key: str) -> str:
        return say(message(f"map-card-{key}"), words)

    figure = rates_figure(found, words=words)
    lead = field_lead(found)
    about = message("map-no-product")
    if found.material is not None:
        product = Product(found.material)
        lead = message("map-card-lead", amount=amount(found.by_zones.now_g), material=product)
        about = message(
            "map-card-subtitle",
            area=Measure(Quantity.AREA, found.field.area_m2),
            day=found.today,
            material=product,
        )
    told = Choices(tuple(say(one, words) for one in _checks(found, words)))
    log = Log(tuple(say(message("map-card-log", column=key), words) for key in _LOG), 3, 8)
    cautions = [one for one in field_cautions(found) if one.handling]
    care = Part(
        heading=say(message("caution-title"), words),
        blocks=(cautions_listed(cautions, words=words, brief=True),),
        care=True,
    )
    rows: tuple[tuple[Part, ...], ...] = (
        (Part(heading=None, blocks=(figure,)),),
        (
            Part(heading=heading("zones"), blocks=(zones_table(found, words=words, brief=True),)),
            Part(heading=heading("before"), blocks=(told,)),
        ),
        (Part(heading=heading("after"), blocks=(log,), spare=2),),
    )
    if cautions:
        rows = (*rows, (care,))
    return Card(
        kind=CardKind.FIELD,
        title=say(message("map-card-title", name=Given(found.field.name)), words),
        subtitle=say(about, words),
        lead=say(lead, words),
        rows=rows,
        closing=closing(words),
        elsewhere=say(message("map-card-elsewhere"), words),
        day=found.today,
    )


def _checks(found: FieldMap, words: Words) -> list[Message]:
    told = []
    if found.material is not None:
        told.append(message("map-card-check-product", material=Product(found.material)))
        told.append(message("map-card-check-rate"))
        field = "rate_lb_ac" if words.units == "us" else "rate_kg_ha"
        told.append(message("map-card-check-file", field=Given(field)))
    if any(zone.rate_g_m2 <= 0.0 for zone in found.zones):
        told.append(message("map-card-check-zero", zones=listed_letters(found)))
    told.append(message("map-card-check-wind"))
    return told
