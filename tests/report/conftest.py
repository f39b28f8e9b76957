"""Chromium for the pages of a module."""

from __future__ import annotations

import os
from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest

from needs import chromium

if TYPE_CHECKING:
    from playwright.sync_api import Browser

CHROMIUM = os.environ.get("LOAMSHIFT_BROWSER") or chromium()


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    if not CHROMIUM:
        pytest.skip("no Chromium here to look at the page with")
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=CHROMIUM, args=["--no-sandbox"])
        yield started
        started.close()
