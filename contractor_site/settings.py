"""Settings of the site. What differs between installations comes from the environment: see README.md."""

from __future__ import annotations

import os
from pathlib import Path

from contractor_site.environment_settings import EnvironmentSettings
from contractor_site.secret_key import read_or_make

ROOT = Path(__file__).resolve().parent.parent

_environment = EnvironmentSettings(os.environ)
_environment.known |= {"EAVESBOOK_NO_SETUP"}  # read before Django is there

DATA_DIR = _environment.folder("EAVESBOOK_DATA_DIR", ROOT / ".eavesbook")
DEBUG = _environment.claim("EAVESBOOK_DEBUG")
_base = _environment.base_url("BASE_URL", "http://127.0.0.1:8000")
_written_key = _environment.text("EAVESBOOK_SECRET_KEY")
DATABASES = {"default": _environment.database("DATABASE_URL", f"sqlite:///{DATA_DIR / 'eavesbook.sqlite3'}")}
_mail = _environment.mail("EMAIL_URL")
DEFAULT_FROM_EMAIL = _environment.text("EMAIL_FROM", f"eavesbook@{_base.hostname}")
_log_level = _environment.one_of("EAVESBOOK_LOG_LEVEL", ("DEBUG", "INFO", "WARNING", "ERROR"), "INFO")
_environment.finish()

globals().update(_mail)
SERVER_EMAIL = DEFAULT_FROM_EMAIL

# Everything the firm must not lose lies in the data folder; nothing in it is served by its path.
DATA_DIR.mkdir(parents=True, exist_ok=True, mode=0o700)
SECRET_KEY = _written_key or read_or_make(DATA_DIR / "secret_key")
PHOTOGRAPHS_DIR = DATA_DIR / "photographs"
PAPERS_DIR = DATA_DIR / "papers"
LOGOS_DIR = DATA_DIR / "logos"
ARRIVING_DIR = DATA_DIR / "arriving"  # halves of photographs: what is lost here, the tablet still has
MEDIA_ROOT = DATA_DIR
WORKER_HEARTBEAT = DATA_DIR / "worker_seen"
FILE_UPLOAD_PERMISSIONS = 0o600
FILE_UPLOAD_DIRECTORY_PERMISSIONS = 0o700

# One address decides hosts, trusted origins, cookies and HTTPS.
BASE_URL = f"{_base.scheme}://{_base.netloc}"
BEHIND_HTTPS_PROXY = _base.scheme == "https"
# The loopback names let in a health probe on this machine, and a proxy that forwards no Host.
ALLOWED_HOSTS = list({_base.hostname or "", "127.0.0.1", "localhost", "[::1]"})
CSRF_TRUSTED_ORIGINS = [BASE_URL]
CSRF_FAILURE_VIEW = "contractor_site.csrf_refusal.refused"
CSRF_COOKIE_SECURE = SESSION_COOKIE_SECURE = BEHIND_HTTPS_PROXY
SECURE_SSL_REDIRECT = BEHIND_HTTPS_PROXY
SECURE_REDIRECT_EXEMPT = [r"^health$"]
SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https") if BEHIND_HTTPS_PROXY else None
SECURE_HSTS_SECONDS = 365 * 24 * 3600 if BEHIND_HTTPS_PROXY else 0
SECURE_REFERRER_POLICY = "same-origin"  # no-referrer would take away the header that the CSRF check reads
X_FRAME_OPTIONS = "DENY"
SILENCED_SYSTEM_CHECKS = [
    "security.W005", "security.W021",  # the firm's other host names are not ours to bind to HTTPS
]  # fmt: skip

CONTENT_SECURITY_POLICY = {
    "DIRECTIVES": {
        "default-src": ["'none'"],
        "script-src": ["'self'"],
        "style-src": ["'self'"],
        "font-src": ["'self'"],
        "connect-src": ["'self'"],
        "worker-src": ["'self'"],
        "manifest-src": ["'self'"],
        "form-action": ["'self'"],
        "img-src": ["'self'", "data:", "blob:"],
        "base-uri": ["'none'"],
        "frame-ancestors": ["'none'"],
    }
}

INSTALLED_APPS = [
    "jobs",
    "contractor_site",
    "django.contrib.auth",
    "django.contrib.contenttypes",
    "django.contrib.sessions",
    "django.contrib.messages",
    "django.contrib.staticfiles",
    "django.forms",
    "django_htmx",
    "csp",
]
MIDDLEWARE = [
    "contractor_site.request_log.RequestLog",
    "contractor_site.behind_proxy.BehindProxy",
    "django.middleware.security.SecurityMiddleware",
    "whitenoise.middleware.WhiteNoiseMiddleware",
    "csp.middleware.CSPMiddleware",
    "django.contrib.sessions.middleware.SessionMiddleware",
    "django.middleware.common.CommonMiddleware",
    "django.middleware.csrf.CsrfViewMiddleware",
    "django.contrib.auth.middleware.AuthenticationMiddleware",
    # Every page asks for a log-in unless its view is marked login_not_required.
    "django.contrib.auth.middleware.LoginRequiredMiddleware",
    "contractor_site.sliding_session.SlidingSession",
    "jobs.surveys.offline.version.TellPagesVersion",
    "django.contrib.messages.middleware.MessageMiddleware",
    "django.middleware.clickjacking.XFrameOptionsMiddleware",
    "django_htmx.middleware.HtmxMiddleware",
    "jobs.documents.showing.TellDamagedFiles",
]
ROOT_URLCONF = "contractor_site.urls"
WSGI_APPLICATION = "contractor_site.wsgi.application"

TEMPLATES = [
    {
        "BACKEND": "django.template.backends.django.DjangoTemplates",
        "DIRS": [ROOT / "templates"],
        "APP_DIRS": True,
        "OPTIONS": {
            "context_processors": [
                "django.template.context_processors.request",
                "django.contrib.auth.context_processors.auth",
                "django.contrib.messages.context_processors.messages",
            ],
        },
    }
]
FORM_RENDERER = "django.forms.renderers.TemplatesSetting"

LOGIN_URL = "log_in"
LOGIN_REDIRECT_URL = "/"
LOGOUT_REDIRECT_URL = "log_in"
SESSION_COOKIE_AGE = 8 * 3600  # a working day without a touch; see sliding_session
SESSION_EXPIRE_AT_BROWSER_CLOSE = True
AUTH_PASSWORD_VALIDATORS = [
    {"NAME": "django.contrib.auth.password_validation.UserAttributeSimilarityValidator"},
    {"NAME": "django.contrib.auth.password_validation.MinimumLengthValidator", "OPTIONS": {"min_length": 10}},
    {"NAME": "django.contrib.auth.password_validation.CommonPasswordValidator"},
]

DATA_UPLOAD_MAX_MEMORY_SIZE = 5 * 1024 * 1024  # photographs are files and do not count
DATA_UPLOAD_MAX_NUMBER_FIELDS = 5000  # a survey of an old roof has a box for every joist
DATA_UPLOAD_MAX_NUMBER_FILES = 40

LANGUAGE_CODE = "en-gb"
TIME_ZONE = "Europe/London"
USE_TZ = True
DEFAULT_AUTO_FIELD = "django.db.models.BigAutoField"

STATIC_URL = "/static/"
STATICFILES_DIRS = [ROOT / "static"]
WHITENOISE_USE_FINDERS = True  # from the source tree: no collectstatic to forget after an upgrade
WHITENOISE_MAX_AGE = 300
WHITENOISE_ALLOW_ALL_ORIGINS = False

LOGGING = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"json": {"()": "contractor_site.logs.JsonLines"}},
    "handlers": {
        "stdout": {"class": "logging.StreamHandler", "stream": "ext://sys.stdout", "formatter": "json"}
    },
    "root": {"handlers": ["stdout"], "level": _log_level},
    "loggers": {
        # Django's own would mail 500s to nobody and print requests twice.
        "django": {"handlers": [], "level": _log_level, "propagate": True},
        "django.request": {"level": "ERROR"},  # what is not a failure of ours is in the request's own line
        "django.security.DisallowedHost": {
            "level": "CRITICAL"
        },  # anyone can send any Host; 400 is answer enough
        "django.security.csrf": {"level": "ERROR"},  # csrf_refusal says more
        "fontTools": {"level": "WARNING"},
        "weasyprint": {"level": "ERROR"},
    },
}
