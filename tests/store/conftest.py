from __future__ import annotations

import os
import uuid
from collections.abc import Iterator
from urllib.parse import urlsplit, urlunsplit

import pytest

URL = os.environ.get("LOAMSHIFT_DATABASE", "")


@pytest.fixture
def url() -> Iterator[str]:
    """A database of its own on the PostgreSQL server of these tests; empty for SQLite."""
    if not URL:
        yield ""
        return
    import psycopg

    name = f"loamshift_{uuid.uuid4().hex[:12]}"
    with psycopg.connect(URL, autocommit=True) as server:
        server.execute(f'CREATE DATABASE "{name}"')
        yield urlunsplit(urlsplit(URL)._replace(path=f"/{name}"))
        server.execute(f'DROP DATABASE "{name}" WITH (FORCE)')
