"""The start page: a first answer for somebody who has just walked in."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import URLPattern, path


def start(request: HttpRequest) -> HttpResponse:
    """Ask the four things that matter most; the answer is the plan page."""
    return render(request, "loamshift/start.html")


ROUTES: list[URLPattern] = [path("", start, name="start")]
