"""Addresses of this folder's pages."""

from __future__ import annotations

from django.urls import path

from loamshift.web.intake.views import draft, upload, weather

urlpatterns = [
    path("intake/", upload.uploads, name="intake"),
    path("intake/<uuid:pk>/", draft.file, name="intake-file"),
    path("intake/<uuid:pk>/delete", draft.delete, name="intake-delete"),
    path("beds/<uuid:pk>/weather", weather.bed_weather, name="bed-weather"),
    path("beds/<uuid:pk>/weather/online", weather.online, name="weather-online"),
    path("beds/<uuid:pk>/weather/<uuid:weather>", weather.file, name="weather-file"),
    path("beds/<uuid:pk>/weather/<uuid:weather>/delete", weather.delete, name="weather-delete"),
]
