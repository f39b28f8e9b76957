from __future__ import annotations

import pytest
from django.test import Client

pytestmark = pytest.mark.django_db


def test_the_start_page_answers_a_stranger_without_sign_in(client: Client) -> None:
    page = client.get("/")
    assert page.status_code == 200
    assert "default-src 'self'" in page.headers["Content-Security-Policy"]
    assert "unsafe" not in page.headers["Content-Security-Policy"]
