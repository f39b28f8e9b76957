"""Addresses of this folder's pages."""

from __future__ import annotations

from loamshift.web.beds.views import edit, history, listing, lists

urlpatterns = [
    *listing.ROUTES,
    *edit.ROUTES,
    *history.ROUTES,
    *lists.ROUTES,
]
