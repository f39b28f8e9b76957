"""Addresses of this folder's pages."""

from __future__ import annotations

from loamshift.web.inbox.views import inbox

urlpatterns = [*inbox.ROUTES]
