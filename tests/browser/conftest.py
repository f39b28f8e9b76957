"""A browser for the tests: it fails on any message of the console and any foreign request."""

from __future__ import annotations

import os
from collections.abc import Callable, Iterator
from typing import Any
from urllib.parse import urlsplit

import pytest

from browser.traffic import SLOW_MS, settle, watch
from loamshift.cli.kernel_ready import ready_kernels
from needs import chromium

CHROMIUM = os.environ.get("LOAMSHIFT_BROWSER") or chromium()
QUIET = (
    "--no-sandbox",
    "--disable-gpu",
    "--no-first-run",
    "--disable-quic",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
os.environ.setdefault("DJANGO_ALLOW_ASYNC_UNSAFE", "true")  # the browser's loop, not Django's


@pytest.fixture(scope="session")
def browser() -> Iterator[Any]:
    """Chromium, for the whole run."""
    if CHROMIUM is None:
        pytest.skip("Chromium is not installed")
    sync_api = pytest.importorskip("playwright.sync_api")
    ready_kernels()  # no page waits for the compiler
    sync_api.expect.set_options(timeout=SLOW_MS)
    with sync_api.sync_playwright() as started:
        opened = started.chromium.launch(executable_path=CHROMIUM, args=list(QUIET))
        yield opened
        opened.close()


@pytest.fixture
def new_page(browser: Any) -> Iterator[Callable[..., Any]]:
    """Make pages; at the end nothing may have been wrong on any of them.

    One for addresses that are not there (``lost``) may say so to the console.
    """
    wrong: list[str] = []
    contexts: list[Any] = []

    def look_at(asked: Any) -> None:
        if urlsplit(asked.url).hostname not in ("localhost", "127.0.0.1", None, ""):
            wrong.append(f"another host: {asked.url}")

    def make(*, width: int = 1200, height: int = 900, lost: bool = False, **more: Any) -> Any:
        def hear(said: Any) -> None:
            if not (lost and "status of 404" in said.text):
                wrong.append(f"{said.type}: {said.text}")

        context = browser.new_context(viewport={"width": width, "height": height}, **more)
        context.set_default_timeout(SLOW_MS)
        watch(context)
        contexts.append(context)
        page = context.new_page()
        page.on("console", hear)
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.on("request", look_at)
        return page

    yield make
    for context in contexts:
        for page in context.pages:
            settle(page)  # the server must not outlive its store
        context.close()
    assert not wrong, wrong
