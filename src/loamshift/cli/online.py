"""Weather from the online archive for one answer; without it the answer goes on as it is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from loamshift.case.mend import Refused
from loamshift.case.online_weather import with_online_weather
from loamshift.cli.kernel_cache import user_cache
from loamshift.cli.show import tell

if TYPE_CHECKING:
    from loamshift.domain.case import Case


def online_case(case: Case) -> Case:
    """The case with online weather; as it was, with a line on stderr, where there is none."""
    try:
        return with_online_weather(case, cache=user_cache() / "loamshift" / "weather")
    except Refused as refused:
        tell(refused.said)
        return case
