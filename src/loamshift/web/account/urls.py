"""Addresses of this folder's pages."""

from __future__ import annotations

from django.urls import path

from loamshift.web.account.views import account, settings_page

urlpatterns = [
    path("account/sign-in", account.sign_in, name="sign-in"),
    path("account/sign-out", account.sign_out, name="sign-out"),
    path("account/", account.account, name="account"),
    path("account/password", account.password, name="account-password"),
    path("account/keys", account.make_key, name="account-key"),
    path("account/keys/<int:number>/end", account.end_key, name="account-key-end"),
    path("settings/", settings_page.settings, name="settings"),
]
