"""Addresses of this folder's pages."""

from __future__ import annotations

from django.urls import path

from loamshift.web.scores.views import scores

urlpatterns = [
    path("scores/", scores.office_scores, name="scores"),
    path("scores/pairs.<str:kind>", scores.pairs_file, name="score-pairs"),
    path("clients/<uuid:pk>/scores", scores.client_scores, name="client-scores"),
    path("beds/<uuid:pk>/scores", scores.bed_scores, name="bed-scores"),
]
