"""Addresses of this folder's pages."""

from __future__ import annotations

from loamshift.web.data.views import case_files, changes, data, leaving

urlpatterns = [
    *data.ROUTES,
    *leaving.ROUTES,
    *case_files.ROUTES,
    *changes.ROUTES,
]
