"""Django's settings, worked out from the surroundings; nothing here names another host."""

from __future__ import annotations

from pathlib import Path

from loamshift.web.logs import logging_settings
from loamshift.web.sizes import LARGEST_FORM
from loamshift.web.surroundings import secret_key, surroundings

FEATURES = (
    *("account", "api", "beds", "clients", "data", "letters", "plan", "products", "review"),
    *("fields", "inbox", "intake", "lesson", "scores", "trials"),
)
"""Folders with pages of their own: views, forms, addresses, templates and tags."""
HERE = Path(__file__).resolve().parent
AROUND = surroundings()
OFFICE_MODE = AROUND.office
DATA_FOLDER = AROUND.folder
BEHIND_PROXY = AROUND.office and AROUND.behind_proxy

SECRET_KEY = secret_key(DATA_FOLDER)
DEBUG = False
ALLOWED_HOSTS = list(AROUND.hosts)
INSTALLED_APPS = [
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "django_htmx",
    "loamshift.store",
    "loamshift.web",
    *(f"loamshift.web.{feature}" for feature in FEATURES),
]
MIDDLEWARE = [
    "loamshift.web.logs.Logged",
    "loamshift.web.middleware.ContentPolicy",
    "loamshift.web.middleware.Worded",
    "django.middleware.security.SecurityMiddleware",
    "loamshift.web.middleware.Admitted",
    "django.middleware.gzip.GZipMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    "loamshift.web.middleware.WhoseOffice",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "loamshift.web.compiled.Prepared",
]
ROOT_URLCONF = "loamshift.web.urls"
WSGI_APPLICATION = "loamshift.web.wsgi.application"
TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.messages.context_processors.messages",
                "loamshift.web.context.page",
            ],
            "builtins": ["loamshift.web.templatetags.say"],
        },
    }
]
DATABASES = {"default": AROUND.database}
AUTH_USER_MODEL = "store.User"
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": f"django.contrib.auth.password_validation.{name}"}
    for name in (
        "UserAttributeSimilarityValidator",
        "MinimumLengthValidator",
        "CommonPasswordValidator",
        "NumericPasswordValidator",
    )
]
LOGIN_URL = "sign-in"
LOGIN_REDIRECT_URL = "start"
LOGOUT_REDIRECT_URL = "sign-in"

LANGUAGE_CODE = "en-gb"
USE_I18N = False
"""Every word that people read is in loamshift.report.messages; Django's own never show."""
USE_TZ = True
TIME_ZONE = "UTC"

STATIC_URL = "static/"
STATICFILES_DIRS = [HERE / "static"]
WHITENOISE_USE_FINDERS = True
WHITENOISE_AUTOREFRESH = False

_COOKIE = "__Host-loamshift" if OFFICE_MODE else "loamshift"
SESSION_COOKIE_NAME = f"{_COOKIE}-session"
SESSION_COOKIE_HTTPONLY = True
SESSION_COOKIE_SAMESITE = "Lax"
SESSION_COOKIE_AGE = 7 * 24 * 3600
CSRF_COOKIE_NAME = f"{_COOKIE}-form"
CSRF_COOKIE_SAMESITE = "Lax"
CSRF_COOKIE_HTTPONLY = True
CSRF_FAILURE_VIEW = "loamshift.web.errors.stale_form"
X_FRAME_OPTIONS = "DENY"
SECURE_CONTENT_TYPE_NOSNIFF = True
SECURE_REFERRER_POLICY = "same-origin"
SECURE_CROSS_ORIGIN_OPENER_POLICY = "same-origin"
if OFFICE_MODE:
    SESSION_COOKIE_SECURE = True
    CSRF_COOKIE_SECURE = True
if BEHIND_PROXY:
    SECURE_HSTS_SECONDS = AROUND.hsts_days * 24 * 3600
    SECURE_SSL_REDIRECT = True
    SECURE_REDIRECT_EXEMPT = [r"^health$"]
    SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
    CSRF_TRUSTED_ORIGINS = [f"https://{host.lstrip('.')}" for host in AROUND.hosts]
LOGGING = logging_settings(office=OFFICE_MODE)

DATA_UPLOAD_MAX_MEMORY_SIZE = LARGEST_FORM
DATA_UPLOAD_MAX_NUMBER_FIELDS = 1500
FILE_UPLOAD_MAX_MEMORY_SIZE = LARGEST_FORM
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"
SILENCED_SYSTEM_CHECKS = ["security.W005", "security.W021"]
"""HTTPS for all names below ours, and for browsers that never came: not ours to decide."""
if BEHIND_PROXY and not AROUND.hsts_days:
    SILENCED_SYSTEM_CHECKS.append("security.W004")  # only HTTPS for months: who runs it says so
