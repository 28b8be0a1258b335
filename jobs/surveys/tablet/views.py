"""The addresses that a tablet speaks to: what it carries out, what it sends in."""

from __future__ import annotations

from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import get_object_or_404
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from jobs.surveys.models import Survey
from jobs.surveys.tablet.body import MOST_BYTES, MOST_ENVELOPE_BYTES, Damaged, TooLarge, read_envelope
from jobs.surveys.tablet.carried import carried_numbers, carried_survey
from jobs.surveys.tablet.json_pages import as_response, for_tablets, length_of, too_large
from jobs.surveys.tablet.receive import receive_change, refusal
from jobs.surveys.tablet.uploads import (
    MOST_PIECE_BYTES,
    NoRoom,
    OutOfStep,
    Piece,
    Progress,
    UploadRefused,
    add_piece,
    upload_progress,
)

TOO_LARGE = f"A change may have {MOST_BYTES // 1024} KB at most."


@require_safe
@for_tablets("jobs.change_survey")
def surveys_carried(request: HttpRequest) -> HttpResponse:
    return JsonResponse(carried_numbers(request.user), safe=False)


@require_safe
@for_tablets("jobs.change_survey")
def survey_carried(request: HttpRequest, number: str) -> HttpResponse:
    rows = Survey.objects.select_related("property__customer")
    return JsonResponse(carried_survey(get_object_or_404(rows, number=number), by=request.user))


@require_POST
@for_tablets("jobs.change_survey", "jobs.add_photograph")
def survey_changes(request: HttpRequest, number: str) -> HttpResponse:
    if length_of(request) > MOST_ENVELOPE_BYTES:
        return too_large(TOO_LARGE)
    try:
        envelope = read_envelope(request.body)
    except TooLarge:
        return too_large(TOO_LARGE)
    except Damaged as damaged:
        words = f"It was damaged on the way, and is sent again. {damaged}"
        return as_response(refusal(422, "damaged", words))
    try:
        return as_response(receive_change(number, envelope, by=request.user))
    except Survey.DoesNotExist:
        raise Http404 from None


@require_http_methods(["GET", "HEAD", "PUT"])
@for_tablets("jobs.add_photograph")
def photograph_upload(request: HttpRequest, number: str, sent_sha256: str) -> HttpResponse:
    """Tell how much of a photograph is there, or take in the next piece of it."""
    survey = get_object_or_404(Survey, number=number)
    if request.method != "PUT":
        return _told(upload_progress(survey, sent_sha256))
    if length_of(request) > MOST_PIECE_BYTES:
        return too_large(f"A piece may have {MOST_PIECE_BYTES // 1024} KB at most.")
    begins_at, whole_bytes = (request.headers.get(f"Upload-{name}", "") for name in ("Offset", "Length"))
    if not (begins_at.isdecimal() and whole_bytes.isdecimal() and int(whole_bytes)):
        words = "It does not say where this piece begins, or how long the whole is."
        return as_response(refusal(400, "no offset", words))
    piece = Piece(int(begins_at), int(whole_bytes), request.body)
    return _add(survey, sent_sha256, piece, request.user)


def _add(survey: Survey, sent_sha256: str, piece: Piece, by: User) -> HttpResponse:
    try:
        return _told(add_piece(survey, sent_sha256, piece, by=by))
    except OutOfStep as elsewhere:
        words = "The next piece begins elsewhere."
        return as_response(refusal(409, "out of step", words, have=elsewhere.have, whole=False))
    except UploadRefused as refused:
        return as_response(refusal(422, refused.error, str(refused)))
    except NoRoom:
        words = "Too many photographs are half here. The tablet tries again later."
        return as_response(refusal(503, "no room", words))


def _told(progress: Progress) -> HttpResponse:
    return JsonResponse({"have": progress.have, "whole": progress.whole})
