"""Addresses of this folder's pages."""

from __future__ import annotations

from loamshift.web.letters.views import cards, letters

urlpatterns = [
    *letters.ROUTES,
    *cards.ROUTES,
]
