"""Every address of the workbench: each topic's own, one after another."""

from __future__ import annotations

from loamshift.web.views import changes, plan, start

urlpatterns = [
    *start.ROUTES,
    *plan.ROUTES,
    *changes.ROUTES,
]
