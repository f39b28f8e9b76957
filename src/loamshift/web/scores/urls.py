"""Addresses of this folder's pages."""

from __future__ import annotations

from loamshift.web.scores.views import scores

urlpatterns = [*scores.ROUTES]
