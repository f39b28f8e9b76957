"""Addresses of this folder's pages."""

from __future__ import annotations

from django.urls import path

from loamshift.web.lesson import views

urlpatterns = [
    path("lesson/", views.lesson, name="lesson"),
    path("lesson/worksheet.pdf", views.worksheet, name="lesson-worksheet"),
]
