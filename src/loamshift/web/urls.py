"""Every address of the workbench."""

from __future__ import annotations

from django.urls import path

from loamshift.web.views import start

urlpatterns = [
    path("", start.start, name="start"),
]
