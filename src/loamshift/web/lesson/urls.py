"""Addresses of this folder's pages."""

from __future__ import annotations

from loamshift.web.lesson import views

urlpatterns = [*views.ROUTES]
