"""Addresses of this folder's pages."""

from __future__ import annotations

from loamshift.web.clients.views import clients, gardens

urlpatterns = [
    *clients.ROUTES,
    *gardens.ROUTES,
]
