"""Addresses of this folder's pages."""

from __future__ import annotations

from loamshift.web.account.views import account, settings_page

urlpatterns = [
    *account.ROUTES,
    *settings_page.ROUTES,
]
