"""Addresses of this folder's pages."""

from __future__ import annotations

from django.urls import path

from loamshift.web.inbox.views import inbox

urlpatterns = [
    path("inbox/", inbox.inbox, name="inbox"),
    path("inbox/<uuid:pk>", inbox.question, name="question"),
    path("inbox/<uuid:pk>/bed", inbox.to_bed, name="question-bed"),
    path("inbox/<uuid:pk>/close", inbox.close, name="question-close"),
    path("inbox/<uuid:pk>/put-away", inbox.away, name="question-away"),
]
