"""Is it well: for a proxy or a monitor, which need not sign in."""

from __future__ import annotations

from django.db import DatabaseError, connection
from django.db.migrations.executor import MigrationExecutor
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.urls import URLPattern, path
from django.views.decorators.http import require_safe


@require_safe
def health(request: HttpRequest) -> HttpResponse:
    """200 where the database answers and is as this program needs it, else 503."""
    reachable, current = _state()
    told = {
        "well": reachable and current,
        "database": "reachable" if reachable else "not reachable",
        "migrations": "current" if current else "not current" if reachable else "unknown",
    }
    response = JsonResponse(told, status=200 if reachable and current else 503)
    response.headers["Cache-Control"] = "no-store"
    return response


def _state() -> tuple[bool, bool]:
    try:
        executor = MigrationExecutor(connection)
        waiting = executor.migration_plan(executor.loader.graph.leaf_nodes())
    except DatabaseError:
        return False, False
    return True, not waiting


ROUTES: list[URLPattern] = [path("health", health, name="health")]
