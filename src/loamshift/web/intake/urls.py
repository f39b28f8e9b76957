"""Addresses of this folder's pages."""

from __future__ import annotations

from loamshift.web.intake.views import draft, upload, weather

urlpatterns = [*upload.ROUTES, *draft.ROUTES, *weather.ROUTES]
