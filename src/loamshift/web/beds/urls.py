"""Addresses of this folder's pages."""

from __future__ import annotations

from django.urls import path

from loamshift.web.beds.views import edit, history, listing, lists

urlpatterns = [
    path("beds/", listing.beds, name="beds"),
    path("beds/<uuid:pk>/next", listing.what_next, name="bed-next"),
    path("beds/<uuid:pk>/put-away", listing.put_away, name="bed-put-away"),
    path("beds/new", edit.new, name="bed-new"),
    path("beds/<uuid:pk>/edit", edit.edit, name="bed-edit"),
    path("beds/<uuid:pk>/tests", edit.quick, {"table": "reading"}, name="bed-test"),
    path("beds/<uuid:pk>/applied", edit.quick, {"table": "applied"}, name="bed-applied"),
    path("beds/<uuid:pk>/history", history.history, name="bed-history"),
    path("lists", lists.lists, name="lists"),
]
