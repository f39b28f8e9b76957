"""Keys that programs sign in to the API with: shown once, kept as a fingerprint."""

from __future__ import annotations

import hashlib
import secrets
from typing import Final

from django.http import HttpRequest

from loamshift.store.models import ApiKey, User

MARK: Final = "loam_"
SCHEME: Final = "bearer"
MOST_KEYS: Final = 20


def new_key(user: User, *, name: str) -> str:
    """Make a key for a program of this person; the key itself, which is not kept."""
    key = MARK + secrets.token_urlsafe(32)
    ApiKey.objects.create(user=user, name=name[:80], digest=_digest(key))
    return key


def holder_of(request: HttpRequest) -> User | None:
    """The person whose key a request carries as ``Authorization: Bearer …``; None without."""
    scheme, _, key = request.headers.get("Authorization", "").partition(" ")
    if scheme.casefold() != SCHEME or not key.startswith(MARK) or len(key) > 100:
        return None
    row = ApiKey.objects.select_related("user__office").filter(digest=_digest(key)).first()
    return row.user if row is not None and row.user.is_active else None


def _digest(key: str) -> str:
    return hashlib.sha256(key.encode("utf-8", "replace")).hexdigest()
