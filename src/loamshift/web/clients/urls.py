"""Addresses of this folder's pages."""

from __future__ import annotations

from django.urls import path

from loamshift.web.clients.views import clients, gardens

urlpatterns = [
    path("clients/new", clients.new, name="client-new"),
    path("clients/<uuid:pk>", clients.client, name="client"),
    path("clients/<uuid:pk>/edit", clients.edit, name="client-edit"),
    path("gardens/new", gardens.new, name="garden-new"),
    path("gardens/<uuid:pk>", gardens.garden, name="garden"),
    path("gardens/<uuid:pk>/edit", gardens.edit, name="garden-edit"),
    path("gardens/<uuid:pk>/put-away", gardens.put_away, name="garden-put-away"),
    path("gardens/<uuid:pk>/sizes/<uuid:bed>", gardens.take_size, name="garden-size"),
]
