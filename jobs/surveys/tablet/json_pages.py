"""Answers for a script instead of a person: JSON whatever happens, and never a redirect to the log-in."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps
from typing import Any

from django.contrib.auth.decorators import login_not_required
from django.http import Http404, HttpRequest, HttpResponse, UnreadablePostError

from jobs.surveys.tablet.receive import Answer, refusal

View = Callable[..., HttpResponse]


def for_tablets(*permissions: str) -> Callable[[View], View]:
    """Let a view answer a tablet: it must be signed in and may do all that is named."""

    def decorate(view: View) -> View:
        @login_not_required  # it is asked for here, and told in JSON
        @wraps(view)
        def answering(request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponse:
            response = _answer(request, permissions, lambda: view(request, *args, **kwargs))
            response["Cache-Control"] = "private, no-store"
            return response

        return answering

    return decorate


def as_response(answer: Answer) -> HttpResponse:
    """Return an answer word for word."""
    response = HttpResponse(answer.text, status=answer.status, content_type="application/json")
    if answer.is_replay:
        response["Idempotent-Replay"] = "true"
    return response


def too_large(words: str) -> HttpResponse:
    """Refuse what is longer than can be taken, before it is read."""
    return as_response(refusal(413, "too large", words))


def length_of(request: HttpRequest) -> int:
    """Return how many bytes the request says that it brings."""
    told = request.META.get("CONTENT_LENGTH") or "0"
    return int(told) if told.isdecimal() else 0


def _answer(
    request: HttpRequest, permissions: tuple[str, ...], view: Callable[[], HttpResponse]
) -> HttpResponse:
    if not request.user.is_authenticated:
        return as_response(refusal(401, "sign in", "Sign in, then it is sent. Nothing is lost."))
    if not request.user.has_perms(permissions):
        return as_response(refusal(403, "not allowed", "Your role may not do this. Ask the office."))
    try:
        return view()
    except Http404:
        return as_response(refusal(404, "no such survey", "There is no survey of this number."))
    except UnreadablePostError:
        return as_response(refusal(400, "cut", "The line broke before all of it came."))
