"""Serve what a tablet keeps: its pages, the list of what it holds, and the script that finds them again."""

from __future__ import annotations

import re

from django.contrib.auth.decorators import login_not_required, permission_required
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.templatetags.static import static
from django.urls import reverse
from django.views.decorators.http import require_safe
from django_htmx.jinja import htmx_script

from jobs.surveys.offline.shells import shell_context, shell_of_sheet
from jobs.surveys.offline.version import pages_version, static_files
from jobs.surveys.sections import SECTIONS

SOURCE = re.compile(r'src="([^"]+)"')


@login_not_required
@require_safe
def service_worker(request: HttpRequest) -> HttpResponse:
    """Answer with the script that serves kept pages; a browser asks for it anew each time."""
    context = {
        "version": pages_version(),
        "pages": {section.key: reverse("kept_page", args=[section.key]) for section in SECTIONS},
        "sheet": reverse("kept_sheet"),
        "tablet": reverse("on_this_tablet"),
        "files": [*map(static, static_files()), *SOURCE.findall(htmx_script())],
    }
    answer = render(request, "surveys/offline/service_worker.js", context, content_type="text/javascript")
    answer["Cache-Control"] = "no-cache"
    return answer


@permission_required("jobs.change_survey", raise_exception=True)
@require_safe
def kept_page(request: HttpRequest, section: str) -> HttpResponse:
    """Answer with one section's page for any survey."""
    template = section if section in {"hazards", "photographs"} else "section"
    return render(request, f"surveys/{template}.html", shell_context(section))


@permission_required("jobs.change_survey", raise_exception=True)
@require_safe
def kept_sheet(request: HttpRequest) -> HttpResponse:
    """Answer with the page that reads any survey back."""
    return render(request, "surveys/offline/sheet.html", shell_of_sheet())


@permission_required("jobs.change_survey", raise_exception=True)
@require_safe
def on_this_tablet(request: HttpRequest) -> HttpResponse:
    """Answer with the list of what a tablet holds: it fills it in itself."""
    return render(request, "surveys/offline/on_this_tablet.html", {"is_shell": True})
