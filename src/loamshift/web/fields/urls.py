"""Addresses of this folder's pages."""

from __future__ import annotations

from django.urls import path

from loamshift.web.fields import views

urlpatterns = [
    path("fields/", views.fields, name="fields"),
    path("fields/<uuid:pk>", views.field, name="field-map"),
    path("fields/<uuid:pk>/files/<str:file>", views.field_file, name="field-file"),
    path("fields/<uuid:pk>/delete", views.delete, name="field-delete"),
]
