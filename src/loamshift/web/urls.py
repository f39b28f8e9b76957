"""Every address of the workbench: each topic's own, one after another."""

from __future__ import annotations

from loamshift.web.views import (
    changes,
    plan,
    plan_files,
    plan_keep,
    start,
    why,
)

urlpatterns = [
    *start.ROUTES,
    *plan.ROUTES,
    *plan_keep.ROUTES,
    *plan_files.ROUTES,
    *why.ROUTES,
    *changes.ROUTES,
]
