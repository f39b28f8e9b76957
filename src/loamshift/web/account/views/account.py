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
from django.contrib.sessions.models import Session
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from loamshift.domain.message import message
from loamshift.domain.worded_error import fault
from loamshift.store.models import ApiKey, User
from loamshift.web.account.carried import FIELD, Carried, carried
from loamshift.web.account.devices import remember
from loamshift.web.account.forms import KeyForm, PasswordForm, SignInForm
from loamshift.web.account.keys import MOST_KEYS, new_key
from loamshift.web.limits import SignInGate
from loamshift.web.middleware import office_of
from loamshift.web.notices import notify, notify_fault

MINUTES_FROM_S = 90
"""A longer wait is told in minutes [s]."""


@never_cache
@sensitive_post_parameters()
@require_http_methods(["GET", "HEAD", "POST"])
def sign_in(request: HttpRequest) -> HttpResponse:
    """Ask for name and password; say the same of a wrong name as of a wrong password."""
    _only_in_an_office()
    target = _own_page(request)
    if request.user.is_authenticated:
        return redirect(target)
    form = SignInForm(request)
    if not form.is_valid():
        return _form(request, target, form)
    name = form.cleaned_data["name"]
    gate = SignInGate(request, name)
    wait = gate.wait_s()
    if wait:
        response = _form(request, target, form, wait=wait, status=429)
        response.headers["Retry-After"] = str(wait)
        return response
    gate.knock()
    user = authenticate(request, username=name, password=form.cleaned_data["password"])
    if not isinstance(user, User) or user.office is None:
        form.refuse([fault("", message("account-wrong"))])
        return _form(request, target, form)
    gate.passed()
    Session.objects.filter(expire_date__lt=timezone.now()).delete()
    login(request, user)
    sent = carried(request.POST.get(FIELD, ""))
    response = redirect(target) if sent is None else _send_on(request, sent)
    remember(request, response, name)
    return response


def ask_to_sign_in(request: HttpRequest, sent: str) -> HttpResponse:
    """The page to sign in on in place of an answer, with the form that was sent in it."""
    return _form(request, "/", SignInForm(request, typed=False), sent=sent, status=401)


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
    form: SignInForm,
    *,
    wait: int = 0,
    sent: str = "",
    status: int = 0,
) -> HttpResponse:
    sent = sent or request.POST.get(FIELD, "")
    long = wait > MINUTES_FROM_S
    context = {
        "next": target,
        "form": form,
        "carried": sent if carried(sent) is not None else "",
        "wait": wait,
        "wait_unit": "minutes" if long else "seconds",
        "wait_n": -(-wait // 60) if long else wait,
    }
    return render(request, "account/sign_in.html", context, status=status or form.status)


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
    form = PasswordForm(request, user=user)
    waiting = gate.wait_s()
    gate.knock()
    form.full_clean()
    if waiting and not form.has_error("old_password"):
        form.refuse([fault("old_password", message("account-password-incorrect"))])
    if not form.is_valid():
        return _page(request, user, password=form)
    gate.passed()
    form.save()
    update_session_auth_hash(request, user)
    notify(request, message("account-password-changed"))
    return redirect("account")


@require_POST
def make_key(request: HttpRequest) -> HttpResponse:
    """Make a key for a program, and show it this once."""
    user, form = _person(request), KeyForm(request)
    if form.is_valid() and ApiKey.objects.filter(user=user).count() >= MOST_KEYS:
        form.refuse([fault("name", message("account-keys-most", most=MOST_KEYS))])
    if not form.is_valid():
        return _page(request, user, for_key=form)
    name = form.cleaned_data["name"]
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
    password: PasswordForm | None = None,
    for_key: KeyForm | None = None,
    **more: Any,
) -> HttpResponse:
    people = ()
    if user.may_change:
        people = tuple(User.objects.filter(office=office_of(request)).order_by("username"))
    password = password or PasswordForm(request, user=user, typed=False)
    for_key = for_key or KeyForm(request, typed=False)
    context = {
        "person": user,
        "keys": ApiKey.objects.filter(user=user),
        "people": people,
        "password": password,
        "for_key": for_key,
        **more,
    }
    status = max(password.status, for_key.status)
    response = render(request, "account/account.html", context, status=status)
    response.headers["Cache-Control"] = "private, no-store"
    return response
