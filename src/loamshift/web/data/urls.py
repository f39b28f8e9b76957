"""Addresses of this folder's pages."""

from __future__ import annotations

from django.urls import path

from loamshift.web.data.views import case_files, changes, data, leaving

urlpatterns = [
    path("settings/data", data.data, name="data"),
    path("settings/data/store.zip", data.everything, name="data-zip"),
    path("settings/data/bring-in", data.bring_in, name="data-bring-in"),
    path("settings/data/backup", data.keep_backup, name="data-backup"),
    path("clients/<uuid:pk>/client.zip", leaving.out, name="client-zip"),
    path("clients/<uuid:pk>/delete", leaving.delete, name="client-delete"),
    path("clients/<uuid:pk>/delete/for-good", leaving.for_good, name="client-for-good"),
    path("beds/<uuid:pk>/case.toml", case_files.case_file, name="bed-case"),
    path("gardens/<uuid:pk>/cases", case_files.into_garden, name="garden-cases"),
    path("changes/", changes.changes, name="changes"),
    path("changes/<uuid:act>/take-back", changes.back, name="take-back"),
]
