"""Addresses of this folder's pages."""

from __future__ import annotations

from django.urls import path

from loamshift.web.letters.views import cards, letters

urlpatterns = [
    path("post/", letters.post, name="post"),
    path("post/<uuid:pk>", letters.letter, name="letter"),
    path("post/<uuid:pk>/today", letters.letter_today, name="letter-today"),
    path("post/<uuid:pk>/letter.<str:kind>", letters.letter_file, name="letter-file"),
    path("post/<uuid:pk>/note", letters.letter_note, name="letter-note"),
    path("post/<uuid:pk>/put-away", letters.letter_away, name="letter-away"),
    path("plan/sheets/<slug:sheet>.pdf", cards.plan_sheet, name="plan-sheet"),
    path("beds/<uuid:pk>/sheets/<slug:sheet>.pdf", cards.plan_sheet, name="bed-sheet"),
    path("claims/card/<slug:number>.pdf", cards.claim_sheet, name="claim-card"),
]
