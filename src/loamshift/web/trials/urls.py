"""Addresses of this folder's pages."""

from __future__ import annotations

from loamshift.web.trials.views import design, files, jars, listing, readings, trial

urlpatterns = [
    *listing.ROUTES,
    *design.ROUTES,
    *trial.ROUTES,
    *readings.ROUTES,
    *files.ROUTES,
    *jars.ROUTES,
]
