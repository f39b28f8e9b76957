"""Signing in and out, one's own password and keys, and who else is in the office."""

from __future__ import annotations

from typing import Any

from django.conf import settings
from django.contrib.auth import (
    authenticate,
    login,
    logout,
    update_session_auth_hash,
)
from django.contrib.auth.forms import PasswordChangeForm
from django.contrib.sessions.models import Session
from django.core.exceptions import ValidationError
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import URLPattern, path
from django.utils import timezone
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from loamshift.domain.message import Message, message
from loamshift.domain.worded_error import fault
from loamshift.store.models import ApiKey, User
from loamshift.web.account.carried import FIELD, Carried, carried
from loamshift.web.account.devices import remember
from loamshift.web.account.keys import MOST_KEYS, new_key
from loamshift.web.kept_form import FormState, form_lines
from loamshift.web.limits import SignInGate
from loamshift.web.middleware import office_of
from loamshift.web.notices import notify, notify_fault
from loamshift.web.wording import words_for

PASSWORD = {
    "old_password": message("account-password-now"),
    "new_password1": message("account-password-new"),
    "new_password2": message("account-password-again"),
}
"""The fields of Django's own form for a password."""
LONGEST_PASSWORD = 4096
MINUTES_FROM_S = 90
"""A longer wait is told in minutes [s]."""
REFUSED = frozenset(
    ("incorrect", "mismatch", "required", "too-common", "entirely-numeric", "too-similar")
)
"""Reasons for which Django refuses a password, as it calls them."""


@never_cache
@sensitive_post_parameters()
@require_http_methods(["GET", "HEAD", "POST"])
def sign_in(request: HttpRequest) -> HttpResponse:
    """Ask for name and password; say the same of a wrong name as of a wrong password."""
    _only_in_an_office()
    target = _own_page(request)
    if request.user.is_authenticated:
        return redirect(target)
    if request.method != "POST":
        return _form(request, target)
    name = request.POST.get("name", "").replace("\x00", "").strip()[:150]
    gate = SignInGate(request, name)
    wait = gate.wait_s()
    if wait:
        response = _form(request, target, name=name, wait=wait, status=429)
        response.headers["Retry-After"] = str(wait)
        return response
    gate.knock()
    password = request.POST.get("password", "")[:LONGEST_PASSWORD]
    user = authenticate(request, username=name, password=password)
    if not isinstance(user, User) or user.office is None:
        return _form(request, target, name=name, wrong=True, status=422)
    gate.passed()
    Session.objects.filter(expire_date__lt=timezone.now()).delete()
    login(request, user)
    form = carried(request.POST.get(FIELD, ""))
    response = redirect(target) if form is None else _send_on(request, form)
    remember(request, response, name)
    return response


def ask_to_sign_in(request: HttpRequest, form: str) -> HttpResponse:
    """The page to sign in on in place of an answer, with the form that was sent in it."""
    return _form(request, "/", form=form, status=401)


def _send_on(request: HttpRequest, form: Carried) -> HttpResponse:
    """The form that was carried, ready to be sent with one press; nothing is sent by itself."""
    response = render(request, "account/carried.html", {"form": form})
    response.headers["Cache-Control"] = "private, no-store"
    return response


@require_POST
def sign_out(request: HttpRequest) -> HttpResponse:
    """Forget the session."""
    _only_in_an_office()
    logout(request)
    response = redirect("sign-in")
    response.headers["Clear-Site-Data"] = '"storage"'  # drafts of forms, on a shared computer
    return response


def _form(
    request: HttpRequest,
    target: str,
    *,
    name: str = "",
    wrong: bool = False,
    wait: int = 0,
    form: str = "",
    status: int = 200,
) -> HttpResponse:
    form = form or request.POST.get(FIELD, "")
    long = wait > MINUTES_FROM_S
    context = {
        "next": target,
        "name": name,
        "carried": form if carried(form) is not None else "",
        "wrong": wrong,
        "wait": wait,
        "wait_unit": "minutes" if long else "seconds",
        "wait_n": -(-wait // 60) if long else wait,
    }
    return render(request, "account/sign_in.html", context, status=status)


def _own_page(request: HttpRequest) -> str:
    """The page to go on to: one of ours, or the start."""
    wanted = request.POST.get("next") or request.GET.get("next") or ""
    ours = wanted.startswith("/") and url_has_allowed_host_and_scheme(wanted, allowed_hosts=None)
    return wanted if ours else "/"


def _only_in_an_office() -> None:
    if not settings.OFFICE_MODE:
        raise Http404


def _person(request: HttpRequest) -> User:
    _only_in_an_office()
    assert isinstance(request.user, User)
    return request.user


@require_safe
def account(request: HttpRequest) -> HttpResponse:
    """Who one is here, one's keys, and for an adviser who else is in the office."""
    return _page(request, _person(request))


@sensitive_post_parameters()
@require_POST
def password(request: HttpRequest) -> HttpResponse:
    """Change one's own password; other sessions of this person end."""
    user = _person(request)
    gate = SignInGate(request, user.username)
    form = PasswordChangeForm(user, request.POST)
    waiting = gate.wait_s()
    gate.knock()
    form.full_clean()
    if waiting and not form.has_error("old_password"):
        form.add_error("old_password", ValidationError("", code="password_incorrect"))
    if not form.is_valid():
        faults = tuple(
            fault(name, _refused(error))
            for name, errors in form.errors.as_data().items()
            for error in errors
        )
        return _page(request, user, state=FormState(faults=faults, status=422))
    gate.passed()
    form.save()
    update_session_auth_hash(request, user)
    notify(request, message("account-password-changed"))
    return redirect("account")


def _refused(error: ValidationError) -> Message:
    """Why Django refuses a password, in words of ours."""
    reason = str(error.code or "").removeprefix("password_").replace("_", "-")
    if reason == "too-short":
        return message("account-password-too-short", least=int((error.params or {})["min_length"]))
    if reason not in REFUSED:
        return message("account-password-refused")
    return message(f"account-password-{reason}")


@require_POST
def make_key(request: HttpRequest) -> HttpResponse:
    """Make a key for a program, and show it this once."""
    user = _person(request)
    name = request.POST.get("name", "").replace("\x00", "").strip()[:80]
    if not name:
        return _page(request, user, key_fault=message("account-key-for-missing"), status=422)
    if ApiKey.objects.filter(user=user).count() >= MOST_KEYS:
        fault = message("account-keys-most", most=MOST_KEYS)
        return _page(request, user, key_fault=fault, status=422)
    return _page(request, user, key=new_key(user, name=name), key_name=name)


@require_POST
def end_key(request: HttpRequest, number: int) -> HttpResponse:
    """End a key; programs that use it are turned away from then on."""
    gone = ApiKey.objects.filter(user=_person(request), pk=number).delete()[0]
    if gone:
        notify(request, message("account-key-revoked"))
    else:
        notify_fault(request, message("account-key-unknown"))
    return redirect("account")


def _page(
    request: HttpRequest,
    user: User,
    *,
    status: int = 200,
    state: FormState | None = None,
    **more: Any,
) -> HttpResponse:
    people = ()
    state = state or FormState(status=status)
    if user.may_change:
        people = tuple(User.objects.filter(office=office_of(request)).order_by("username"))
    context = {
        "person": user,
        "keys": ApiKey.objects.filter(user=user),
        "people": people,
        "lines": form_lines(PASSWORD, {}, state, words=words_for(request)),
        **more,
    }
    response = render(request, "account/account.html", context, status=state.status)
    response.headers["Cache-Control"] = "private, no-store"
    return response


ROUTES: list[URLPattern] = [
    path("account/sign-in", sign_in, name="sign-in"),
    path("account/sign-out", sign_out, name="sign-out"),
    path("account/", account, name="account"),
    path("account/password", password, name="account-password"),
    path("account/keys", make_key, name="account-key"),
    path("account/keys/<int:number>/end", end_key, name="account-key-end"),
]
