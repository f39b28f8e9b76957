"""Every address of the workbench: each folder's own, one after another."""

from __future__ import annotations

from loamshift.web import health
from loamshift.web.account import urls as account
from loamshift.web.api import views as api
from loamshift.web.beds import urls as beds
from loamshift.web.clients import urls as clients
from loamshift.web.data import urls as data
from loamshift.web.fields import urls as fields
from loamshift.web.inbox import urls as inbox
from loamshift.web.intake import urls as intake
from loamshift.web.lesson import urls as lesson
from loamshift.web.letters import urls as letters
from loamshift.web.plan import urls as plan
from loamshift.web.products import urls as products
from loamshift.web.review import urls as review
from loamshift.web.scores import urls as scores
from loamshift.web.trials import urls as trials

urlpatterns = [
    *health.ROUTES,
    *account.urlpatterns,
    *api.ROUTES,
    *beds.urlpatterns,
    *clients.urlpatterns,
    *plan.urlpatterns,
    *letters.urlpatterns,
    *products.urlpatterns,
    *lesson.urlpatterns,
    *inbox.urlpatterns,
    *review.urlpatterns,
    *scores.urlpatterns,
    *data.urlpatterns,
    *intake.urlpatterns,
    *fields.urlpatterns,
    *trials.urlpatterns,
]

handler400 = "loamshift.web.errors.bad_request"
handler403 = "loamshift.web.errors.forbidden"
handler404 = "loamshift.web.errors.not_found"
handler500 = "loamshift.web.errors.our_fault"
