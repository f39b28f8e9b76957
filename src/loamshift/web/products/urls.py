"""Addresses of this folder's pages."""

from __future__ import annotations

from django.urls import path

from loamshift.web.products.views import claim_files, claims, products

urlpatterns = [
    path("shelf/", products.shelf, name="shelf"),
    path("shelf/new", products.product_new, name="product-new"),
    path("shelf/prices", products.prices_in, name="prices"),
    path("shelf/prices.csv", products.prices_out, name="prices-out"),
    path("shelf/<uuid:pk>", products.product_edit, name="product"),
    path("shelf/<uuid:pk>/put-away", products.product_away, name="product-away"),
    path("claims/", claims.claims, name="claims"),
    path("claims/sheet.pdf", claim_files.sheet_pdf, name="claims-sheet"),
    path(
        "claims/picture-<slug:shape>.<slug:ending>",
        claim_files.claims_picture,
        name="claims-picture",
    ),
]
