"""Every address of the workbench: each topic's own, one after another."""

from __future__ import annotations

from loamshift.web.views import (
    account,
    api,
    beds,
    cards,
    case_files,
    changes,
    claims,
    clients,
    data,
    edit,
    gardens,
    health,
    history,
    leaving,
    lists,
    plan,
    plan_files,
    plan_keep,
    post,
    settings_page,
    shelf,
    start,
    tour,
    why,
)

urlpatterns = [
    *start.ROUTES,
    *account.ROUTES,
    *health.ROUTES,
    *api.ROUTES,
    *beds.ROUTES,
    *edit.ROUTES,
    *history.ROUTES,
    *clients.ROUTES,
    *gardens.ROUTES,
    *lists.ROUTES,
    *plan.ROUTES,
    *plan_keep.ROUTES,
    *plan_files.ROUTES,
    *why.ROUTES,
    *changes.ROUTES,
    *data.ROUTES,
    *leaving.ROUTES,
    *case_files.ROUTES,
    *shelf.ROUTES,
    *post.ROUTES,
    *claims.ROUTES,
    *cards.ROUTES,
    *settings_page.ROUTES,
    *tour.ROUTES,
]

handler400 = "loamshift.web.views.errors.bad_request"
handler403 = "loamshift.web.views.errors.forbidden"
handler404 = "loamshift.web.views.errors.not_found"
handler500 = "loamshift.web.views.errors.our_fault"
