"""What pages asked for and were not answered yet, so that a test waits no longer than it must.

The ordinary wait for a network at rest takes half a second each time, and sees nothing of what a
script asks for later.
"""

from __future__ import annotations

import time
from typing import Any, Final
from weakref import WeakKeyDictionary

SLOW_MS: Final = 60_000
"""What is waited for at the most: a busy machine is no fault of a page [ms]."""
BETWEEN_MS: Final = 20
"""Two looks at a page that is at rest lie this far apart; a script that waits for the page to be
laid out asks within one frame [ms]."""
_OPEN: Final[WeakKeyDictionary[Any, set[Any]]] = WeakKeyDictionary()


def watch(context: Any) -> None:
    """Count the requests of all pages of a context from now on."""
    asked: set[Any] = set()
    _OPEN[context] = asked
    context.on("request", lambda one: asked.add(one))
    for over in ("requestfinished", "requestfailed"):
        context.on(over, lambda one: asked.discard(one))


def settle(page: Any) -> None:
    """Come back when a page has all that it asked for, and its scripts ask for no more."""
    asked = _OPEN[page.context]
    until = time.monotonic() + SLOW_MS / 1000
    looks_at_rest = 0
    while looks_at_rest < 2:
        page.wait_for_load_state()
        page.wait_for_timeout(BETWEEN_MS)
        busy = asked or page.locator(".htmx-request").count()
        looks_at_rest = 0 if busy else looks_at_rest + 1
        assert time.monotonic() < until, [one.url for one in asked]
