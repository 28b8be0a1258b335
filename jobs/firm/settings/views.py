"""The pages of the firm's settings, their preview, and the two public parts of its dress."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from django.contrib import messages
from django.contrib.auth.decorators import login_not_required, permission_required
from django.db import transaction
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from jobs.documents.showing import show_pdf
from jobs.firm.accent import HEX, is_for_text
from jobs.firm.insurance_models import Insurance
from jobs.firm.logo import DIGEST, read_logo
from jobs.firm.models import Firm
from jobs.firm.settings.forms import DressForm, ParticularsForm, QuotesForm, SettingsForm, WorkingForm
from jobs.firm.settings.insurance_forms import InsuranceRows
from jobs.firm.settings.preview import preview, preview_pdf
from jobs.firm.settings.reminders import reminders
from jobs.firm.settings.rights_form import RightsForm
from jobs.forms import sent
from jobs.kept_files import FileDamaged

YEAR = "public, max-age=31536000, immutable"


@dataclass(frozen=True, slots=True)
class Section:
    """One page of the settings."""

    key: str
    title: str
    form: type[SettingsForm]
    shows_papers: bool = True
    has_insurances: bool = False

    @property
    def page(self) -> str:
        return "firm" if self.key == "particulars" else f"firm_{self.key}"


SECTIONS = {
    each.key: each
    for each in (
        Section("particulars", "Particulars", ParticularsForm),
        Section("dress", "Logo and colour", DressForm),
        Section("payment", "Quotes and payment", QuotesForm, has_insurances=True),
        Section("rights", "Customers' rights", RightsForm, shows_papers=False),
        Section("working", "How we work", WorkingForm, shows_papers=False),
    )
}


class _Page:
    """The forms of one page, filled with what was sent."""

    def __init__(self, request: HttpRequest, key: str) -> None:
        if key not in SECTIONS:
            raise Http404
        self.section = SECTIONS[key]
        self.firm = Firm.objects.filter(pk=1).first() or Firm(pk=1)
        data = sent(request)
        self.form = self.section.form(data, request.FILES or None, instance=self.firm)
        self.rows = InsuranceRows(data, prefix="insurance") if self.section.has_insurances else None

    @property
    def is_valid(self) -> bool:
        rows_valid = self.rows is None or self.rows.is_valid()
        return self.form.is_valid() and rows_valid

    @transaction.atomic
    def save(self) -> None:
        self.form.save()
        if self.rows is not None:
            self.rows.save()

    def shown(self) -> dict[str, Any]:
        """Return the preview of what was sent, or of what is saved."""
        rows = None
        if self.form.is_bound:
            self.form.is_valid()  # fills the record with whatever was understood, and saves nothing
            rows = self.rows.kept if self.rows is not None else None
        return preview(self.form.instance, today=timezone.localdate(), form=self.form, rows=rows)

    def context(self) -> dict[str, Any]:
        today = timezone.localdate()
        saved = Firm.objects.filter(pk=1).first()
        waiting = reminders(saved, Insurance.objects.all(), today=today) if saved else []
        return {
            "form": self.form,
            "rows": self.rows,
            "section": self.section,
            "sections": SECTIONS.values(),
            "reminders": waiting,
            "preview": self.shown() if self.section.shows_papers else None,
        }


@permission_required("jobs.change_firm", raise_exception=True)
def firm_settings(request: HttpRequest, section: str = "particulars") -> HttpResponse:
    page = _Page(request, section)
    if page.form.is_bound and page.is_valid:
        page.save()
        messages.success(request, f"{page.section.title}: saved.")
        return redirect(page.section.page)
    status = 422 if page.form.is_bound else 200
    return render(request, "firm/firm.html", page.context(), status=status)


@permission_required("jobs.change_firm", raise_exception=True)
@require_POST
def firm_preview(request: HttpRequest, section: str) -> HttpResponse:
    """Show what papers would look like; nothing is saved."""
    page = _Page(request, section)
    if request.htmx:
        context = {"preview": page.shown(), "form": page.form, "rows": page.rows}
        return render(request, "firm/_preview.html", context)
    chosen_again = bool(request.FILES)
    return render(request, "firm/firm.html", page.context() | {"chosen_again": chosen_again})


@permission_required("jobs.change_firm", raise_exception=True)
@require_POST
def firm_on_paper(request: HttpRequest, section: str) -> HttpResponse:
    """Return one sheet in the dress that was typed; nothing is saved, so only a saved logo is on it."""
    page = _Page(request, section)
    return show_pdf(preview_pdf(page.shown()), filename="preview.pdf")


def _public(view: Callable[..., HttpResponse]) -> Callable[..., HttpResponse]:
    decorated: Callable[..., HttpResponse] = login_not_required(require_safe(view))
    return decorated


@_public
def firm_logo(request: HttpRequest, sha256: str) -> HttpResponse:
    """Show a kept logo to whoever knows its digest: customers, on the page of their quote."""
    try:
        png = read_logo(sha256) if DIGEST.fullmatch(sha256) else None
    except FileDamaged:
        png = None
    if png is None:
        raise Http404
    response = HttpResponse(png, content_type="image/png")
    response["Cache-Control"] = YEAR
    return response


@_public
def firm_colour(request: HttpRequest, colour: str) -> HttpResponse:
    """Return a colour as a stylesheet: pages carry no style of their own."""
    if not HEX.fullmatch(f"#{colour}"):
        raise Http404
    words = f" --accent-text: #{colour};" if is_for_text(f"#{colour}") else ""
    response = HttpResponse(f".dressed.dressed {{ --accent: #{colour};{words} }}\n", content_type="text/css")
    response["Cache-Control"] = YEAR
    return response
