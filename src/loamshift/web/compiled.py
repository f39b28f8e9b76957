"""Whether a forecast can be had at once, or the column is still being compiled beside."""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from django.http import HttpRequest, HttpResponse

from loamshift.web.errors import error_page

NEED_FORECAST: Final = frozenset(
    (
        "bed-file",
        "bed-history",
        "bed-sheet",
        "plan-file",
        "plan-sheet",
    )
)
"""Names of pages that have nothing to show before there is a forecast."""
NEED_FORECAST_OF: Final = frozenset(("claims", "claims-sheet", "why", "why-all"))
"""Those that need one only where the address asks about a bed or a soil."""
AGAIN_S: Final = 3
"""After how long such a page looks again [s]."""


class Compiled:
    """What the door knows of the machine code; without a door that compiles, all is ready."""

    def __init__(self) -> None:
        self._asked: Callable[[], bool] | None = None

    def ask(self, is_ready: Callable[[], bool]) -> None:
        """Ask this from now on, until it says yes for the first time."""
        self._asked = is_ready

    @property
    def is_ready(self) -> bool:
        """False while the first forecast would have to wait for the compiler."""
        if self._asked is not None and self._asked():
            self._asked = None
        return self._asked is None


COMPILED: Final = Compiled()
"""That of this process."""


class Prepared:
    """Say in one line that forecasts are being prepared, on pages that are nothing without one."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        """Pass it on."""
        return self.get_response(request)

    def process_view(
        self, request: HttpRequest, view: object, args: object, kwargs: object
    ) -> HttpResponse | None:
        """The page looks again by itself, and is there once the code is."""
        name = "" if request.resolver_match is None else request.resolver_match.url_name
        needed = name in NEED_FORECAST or (name in NEED_FORECAST_OF and bool(request.GET))
        if not needed or request.method != "GET" or COMPILED.is_ready:
            return None
        response = error_page(request, 503, name="preparing")
        response.headers["Refresh"] = response.headers["Retry-After"] = str(AGAIN_S)
        return response
