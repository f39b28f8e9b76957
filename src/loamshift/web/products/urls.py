"""Addresses of this folder's pages."""

from __future__ import annotations

from loamshift.web.products.views import claims, products

urlpatterns = [
    *products.ROUTES,
    *claims.ROUTES,
]
