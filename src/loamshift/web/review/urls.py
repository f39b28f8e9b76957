"""Addresses of this folder's pages."""

from __future__ import annotations

from django.urls import path

from loamshift.web.review.views import review

urlpatterns = [
    path("review/", review.office_review, name="review"),
    path("clients/<uuid:pk>/review", review.client_review, name="client-review"),
    path("beds/<uuid:pk>/review", review.bed_review, name="bed-review"),
]
