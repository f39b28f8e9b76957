"""What every test of a page shares."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from whitenoise.middleware import WhiteNoiseMiddleware


@pytest.fixture(scope="session", autouse=True)
def files_of_style_are_looked_for_once() -> Iterator[None]:
    """A test browser makes the server anew, which would look for all of them each time."""
    look = WhiteNoiseMiddleware.add_files_from_finders
    found: dict[str, Any] = {}

    def look_once(server: WhiteNoiseMiddleware) -> None:
        if not found:
            look(server)
            found.update(server.files)
        server.files.update(found)

    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(WhiteNoiseMiddleware, "add_files_from_finders", look_once)
        yield
