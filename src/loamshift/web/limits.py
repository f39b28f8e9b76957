"""How often a door may be knocked at: sign-in with growing waits, and forecasts a minute."""

from __future__ import annotations

import math
import threading
import time
from collections import deque
from datetime import timedelta
from typing import Final

from django.conf import settings
from django.db import transaction
from django.db.models import F
from django.http import HttpRequest
from django.utils import timezone
from django.utils.crypto import salted_hmac

from loamshift.store.models import FailedSignIn
from loamshift.web.account.devices import device_for

FREE_TRIES: Final = {"name": 5, "address": 20, "device": 5}
"""Failures without a wait; many people may share one address."""
FIRST_WAIT_S: Final = 2.0
LONGEST_WAIT_S: Final = 15 * 60.0
FORGOTTEN_AFTER: Final = timedelta(hours=24)


class SignInGate:
    """Counts failed sign-ins in the database, so for all processes.

    A browser that this person signed in with before has a count of its own. All others share
    one count for the name and one for their address. So a stranger who guesses makes strangers
    wait, and the person goes on signing in.
    """

    def __init__(self, request: HttpRequest, name: str) -> None:
        device = device_for(request, name)
        if device:
            self.kinds = {_fingerprint("device", f"{device} {name.casefold().strip()}"): "device"}
        else:
            self.kinds = {
                _fingerprint("name", name.casefold().strip()): "name",
                _fingerprint("address", client_address(request)): "address",
            }

    def wait_s(self) -> int:
        """Seconds until the next try is looked at; 0 for now."""
        now = timezone.now()
        longest = 0.0
        for row in FailedSignIn.objects.filter(whose__in=self.kinds):
            over = row.times - FREE_TRIES[self.kinds[row.whose]]
            if over < 0:
                continue
            wait = min(FIRST_WAIT_S * 2.0 ** min(over, 20), LONGEST_WAIT_S)
            longest = max(longest, wait - (now - row.last_at).total_seconds())
        return math.ceil(longest)

    def knock(self) -> None:
        """Count one try, before it is looked at.

        Counted first, so that many tries at once are counted too.
        """
        now = timezone.now()
        with transaction.atomic():
            FailedSignIn.objects.filter(last_at__lt=now - FORGOTTEN_AFTER).delete()
            FailedSignIn.objects.bulk_create(
                [FailedSignIn(whose=whose) for whose in sorted(self.kinds)], ignore_conflicts=True
            )
            FailedSignIn.objects.filter(whose__in=self.kinds).update(
                times=F("times") + 1, last_at=now
            )

    def passed(self) -> None:
        """Forget the failures of a name or a browser; of an address only this try."""
        for whose, kind in self.kinds.items():
            counted = FailedSignIn.objects.filter(whose=whose)
            if kind == "address":
                counted.filter(times__gt=0).update(times=F("times") - 1)
            else:
                counted.delete()


def _fingerprint(kind: str, value: str) -> str:
    return salted_hmac(f"loamshift sign-in {kind}", value, algorithm="sha256").hexdigest()


def client_address(request: HttpRequest) -> str:
    """Where a request comes from; what the proxy says only where there is one."""
    peer = str(request.META.get("REMOTE_ADDR", ""))
    if not settings.BEHIND_PROXY:
        return peer
    told = str(request.META.get("HTTP_X_FORWARDED_FOR", "")).rsplit(",", 1)[-1].strip()
    return told[:64] or peer


class Pace:
    """At most so many a minute for each person, in this process."""

    def __init__(self, *, per_minute: int) -> None:
        self.per_minute = per_minute
        self._seen: dict[str, deque[float]] = {}
        self._lock = threading.Lock()

    def wait_s(self, whose: str) -> int:
        """Count one for somebody: 0 where it may go on, else the seconds to wait."""
        now = time.monotonic()
        with self._lock:
            if len(self._seen) > 1000:
                self._seen = {k: seen for k, seen in self._seen.items() if seen[-1] > now - 60.0}
            times = self._seen.setdefault(whose, deque())
            while times and times[0] <= now - 60.0:
                times.popleft()
            if len(times) >= self.per_minute:
                return max(1, math.ceil(times[0] + 60.0 - now))
            times.append(now)
            return 0
