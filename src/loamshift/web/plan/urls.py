"""Addresses of this folder's pages."""

from __future__ import annotations

from django.urls import path

from loamshift.web.plan.views import files, keep, plan, start, tour, why

urlpatterns = [
    path("", start.start, name="start"),
    path("tour/done", tour.done, name="tour-done"),
    path("tour/again", tour.again, name="tour-again"),
    path("tour/samples-away", tour.samples_away, name="samples-away"),
    path("plan", plan.plan, name="plan"),
    path("plan/whole", plan.whole, name="plan-whole"),
    path("plan/sliders", plan.sliders, name="plan-sliders"),
    path("plan/known.json", plan.known, name="known"),
    path("plan/places.json", plan.places_like, name="places-like"),
    path("beds/<uuid:pk>", plan.plan, name="bed"),
    path("beds/<uuid:pk>/whole", plan.whole, name="bed-whole"),
    path("beds/<uuid:pk>/sliders", plan.sliders, name="bed-sliders"),
    path("letter-<slug:name>.css", plan.style, name="letter-style"),
    path("plan/keep", keep.keep_walk_in, name="plan-keep"),
    path("beds/<uuid:pk>/keep", keep.keep_changes, name="bed-keep"),
    path("beds/<uuid:pk>/send", keep.send, name="bed-send"),
    path("plan/letter.<slug:ending>", files.file, name="plan-file"),
    path("beds/<uuid:pk>/letter.<slug:ending>", files.file, name="bed-file"),
    path("why/", why.all_keys, name="why-all"),
    path("why/<path:key>", why.why, name="why"),
]
