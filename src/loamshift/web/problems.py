"""What keeps something from being saved, as faults that a page shows."""

from __future__ import annotations

from loamshift.domain.message import Given, Message, Prose, message
from loamshift.domain.worded_error import WordedFault, plainly
from loamshift.errors import Fault, InputError


def whole_fault(error: InputError, *, path: str = "", mend: Message | None = None) -> Fault:
    """An error as a fault of a whole page, or of one field.

    Parameters
    ----------
    error
        What was raised [object].
    path
        The field that is to blame; empty where none is [text].
    mend
        What works instead, where the error does not say it [object].

    Returns
    -------
    Fault
        With the messages of the error, or its text where it has none [object].
    """
    said = getattr(error, "said", None)
    if said is None:
        text = str(error).strip()
        said = message("verbatim", text=Given(text if text.endswith((".", ":")) else f"{text}."))
    prose = said if isinstance(said, Prose) else Prose((said,))
    for fault in getattr(error, "faults", ()):
        if isinstance(fault, WordedFault):
            prose += fault.said
    if mend is not None:
        prose += Prose((mend,))
    return WordedFault(path, "", plainly(said), "" if mend is None else plainly(mend), prose)
