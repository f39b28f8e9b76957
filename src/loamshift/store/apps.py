"""The store as Django knows it."""

from __future__ import annotations

from django.apps import AppConfig


class StoreConfig(AppConfig):
    """One application: ``loamshift.store``."""

    name = "loamshift.store"
    label = "store"
    verbose_name = "loamshift"
    default_auto_field = "django.db.models.BigAutoField"
