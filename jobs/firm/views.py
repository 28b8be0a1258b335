from __future__ import annotations

from django.contrib import messages
from django.contrib.auth import authenticate, login, logout, update_session_auth_hash
from django.contrib.auth.decorators import login_not_required, permission_required
from django.contrib.auth.models import User
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_POST, require_safe

from jobs.firm.forms import LogInForm, PersonForm
from jobs.firm.services import LastOwner, add_person, change_person
from jobs.firm.throttle import forget_failures, must_wait, note_failure
from jobs.forms import sent, status_of

YEAR_SECONDS = 365 * 24 * 3600


@login_not_required
@never_cache
@sensitive_post_parameters("password")
def log_in(request: HttpRequest) -> HttpResponse:
    if request.user.is_authenticated:
        return redirect("today")
    form = LogInForm(sent(request))
    status = 200
    if form.is_bound and form.is_valid():
        name, address = form.cleaned_data["username"], request.META.get("REMOTE_ADDR")
        if must_wait(name, address):
            form.add_error(None, "Too many tries. Wait fifteen minutes, or ask the owner for a new password.")
            status = 429
        elif person := authenticate(request, username=name, password=form.cleaned_data["password"]):
            forget_failures(name, address)
            login(request, person)
            return redirect(_next_page(request))
        else:
            note_failure(name, address)
            form.add_error(None, "Name and password do not match. Nothing else was changed.")
    status = status if status != 200 else status_of(form)
    return render(request, "log_in.html", {"form": form, "next": _next_page(request)}, status=status)


def _next_page(request: HttpRequest) -> str:
    """Return where to go after logging in, never another site."""
    wanted = request.POST.get("next") or request.GET.get("next") or ""
    here = url_has_allowed_host_and_scheme(
        wanted, allowed_hosts={request.get_host()}, require_https=request.is_secure()
    )
    return wanted if here else "/"


@require_POST
def log_out(request: HttpRequest) -> HttpResponse:
    logout(request)
    return redirect("log_in")


@login_not_required
@require_POST
def switch_sheet(request: HttpRequest) -> HttpResponse:
    """Choose the light or the dark sheet for this device, or follow the device again."""
    response = redirect(_next_page(request))
    sheet = request.POST.get("sheet")
    if sheet in {"light", "dark"}:
        response.set_cookie(
            "sheet",
            sheet,
            max_age=YEAR_SECONDS,
            samesite="Lax",
            httponly=True,
            secure=request.is_secure(),
        )
    else:
        response.delete_cookie("sheet", samesite="Lax")
    return response


@permission_required("auth.view_user", raise_exception=True)
@require_safe
def people(request: HttpRequest) -> HttpResponse:
    everyone = User.objects.prefetch_related("groups").order_by("-is_active", "username")
    return render(request, "firm/people.html", {"people": everyone})


@permission_required("auth.change_user", raise_exception=True)
@sensitive_post_parameters("password")
def person(request: HttpRequest, pk: int | None = None) -> HttpResponse:
    someone = get_object_or_404(User, pk=pk) if pk else None
    form = PersonForm(sent(request), person=someone)
    if form.is_bound and form.is_valid():
        asked = form.cleaned_data
        try:
            if someone:
                change_person(someone, **asked)
                if someone == request.user:
                    update_session_auth_hash(request, someone)
            else:
                asked.pop("may_log_in")
                someone = add_person(**asked)
        except LastOwner as refused:
            form.add_error(None, str(refused))
        else:
            messages.success(request, f"{someone.get_full_name()} is saved.")
            return redirect("people")
    context = {"form": form, "person": someone}
    return render(request, "firm/person.html", context, status=status_of(form))
