"""Addresses of this folder's pages."""

from __future__ import annotations

from loamshift.web.plan.views import files, keep, plan, start, tour, why

urlpatterns = [
    *start.ROUTES,
    *tour.ROUTES,
    *plan.ROUTES,
    *keep.ROUTES,
    *files.ROUTES,
    *why.ROUTES,
]
