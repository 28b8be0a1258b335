"""When a form is refused, say which header is wrong and what to set: it is rarely the visitor's fault."""

from __future__ import annotations

import logging
from dataclasses import dataclass
from urllib.parse import urlsplit

from django.conf import settings
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import render

logger = logging.getLogger("eavesbook.csrf")

JSON = "application/json"


@dataclass(frozen=True, slots=True)
class Advice:
    """One cause: the header, what came in it, and what to do."""

    header: str
    came: str
    visitor: str
    keeper: str


def refused(request: HttpRequest, reason: str = "") -> HttpResponse:
    """Answer a refused form (Django's CSRF_FAILURE_VIEW)."""
    advice = advise(request)
    logger.warning("form refused", extra={"figures": {"header": advice.header, "reason": reason}})
    if request.get_preferred_type(["text/html", JSON]) == JSON:  # a script asks, and reads no page
        return JsonResponse({"error": "form token", "words": advice.visitor}, status=403)
    context = {"advice": advice, "base_url": settings.BASE_URL}
    return render(request, "site/csrf_refusal.html", context, status=403)


def advise(request: HttpRequest) -> Advice:
    """Return the first cause that explains the refusal, in the order in which Django looks."""
    origin = request.META.get("HTTP_ORIGIN")
    if origin is not None and origin not in _accepted_origins(request):
        return _about_origin(origin)
    if origin is None and request.is_secure():
        referer = request.META.get("HTTP_REFERER", "")
        if _origin_of(referer) not in _accepted_origins(request):
            return _about_referer(referer)
    if settings.CSRF_COOKIE_NAME not in request.COOKIES:
        return _about_cookie(request)
    return Advice(
        "X-CSRFToken",
        "a token of another log-in",
        "You probably signed in or out in another tab. Load the page again and send the form once more.",
        "If it happens every time, a cache between browser and site keeps old pages: it must cache no HTML.",
    )


def _accepted_origins(request: HttpRequest) -> set[str]:
    own = f"{request.scheme}://{request.META.get('HTTP_HOST', '')}"
    return {own, *settings.CSRF_TRUSTED_ORIGINS}


def _about_origin(origin: str) -> Advice:
    if origin == "null":
        return Advice(
            "Origin",
            origin,
            f"Open the site at {settings.BASE_URL} itself, not inside another page or a saved file.",
            "Remove any Referrer-Policy: no-referrer that the proxy adds; the site sends same-origin.",
        )
    return Advice("Origin", origin, _open_at_base_url(), _set_base_url(origin))


def _about_referer(referer: str) -> Advice:
    if not referer:
        return Advice(
            "Referer",
            "nothing",
            "The browser hides where the form came from (a privacy setting): allow it for this site.",
            "The reverse proxy must not remove Origin or Referer, nor add Referrer-Policy: no-referrer.",
        )
    return Advice("Referer", _origin_of(referer), _open_at_base_url(), _set_base_url(_origin_of(referer)))


def _about_cookie(request: HttpRequest) -> Advice:
    if settings.CSRF_COOKIE_SECURE and not request.is_secure():
        proto = request.META.get("HTTP_X_FORWARDED_PROTO", "nothing")
        return Advice(
            "X-Forwarded-Proto",
            proto,
            _open_at_base_url(),
            "The reverse proxy must set X-Forwarded-Proto to https for visitors who came by HTTPS.",
        )
    return Advice(
        "Cookie",
        f"no {settings.CSRF_COOKIE_NAME}",
        "The browser kept no cookie: allow cookies for this site, load the page and send the form again.",
        "The reverse proxy must pass Cookie and Set-Cookie unchanged.",
    )


def _open_at_base_url() -> str:
    return f"Open the site at {settings.BASE_URL} and send the form again."


def _set_base_url(origin: str) -> str:
    return f"If {origin} is the right address, set BASE_URL={origin} and restart the site."


def _origin_of(address: str) -> str:
    parts = urlsplit(address)
    return f"{parts.scheme}://{parts.netloc}" if parts.netloc else ""
