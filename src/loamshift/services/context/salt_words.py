"""How salty what was put on may make a bed, in words."""

from __future__ import annotations

from loamshift.domain.message import Message, message, salt
from loamshift.services.context.amount_words import products
from loamshift.services.context.salt_put_on import SaltPutOn


def salt_words(put_on: SaltPutOn) -> Message:
    """The most that a bed may read for salt put on lately, beside the limit of its plants."""
    return message(
        "verdict-salt-put-on",
        products=products(put_on.materials),
        ece=salt(put_on.ece_ds_m, against=put_on.limit_ds_m),
        limit=salt(put_on.limit_ds_m, against=put_on.ece_ds_m),
    )
