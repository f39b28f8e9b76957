"""Addresses of this folder's pages."""

from __future__ import annotations

from loamshift.web.review.views import review

urlpatterns = [*review.ROUTES]
