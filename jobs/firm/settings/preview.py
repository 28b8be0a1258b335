"""What papers would look like with settings that are not saved: on invented figures, for the page's side."""

from __future__ import annotations

import base64
from collections.abc import Iterable
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

from django import forms
from django.urls import reverse

from jobs.documents.render import pdf_from_template
from jobs.firm.as_printed import firm_as_printed, insurances_held
from jobs.firm.insurance_models import Insurance
from jobs.firm.logo import Logo, printed_size_px
from jobs.firm.models import Firm

NUMBER, TOTAL = "Q-0000-0000", Decimal("1890.00")
LINES = (
    ("Deck", "Raised deck of 15 m² on pedestals", Decimal("1075.00")),
    ("Insulation", "", Decimal("600.00")),
)
VAT = TOTAL - sum(net for _, _, net in LINES)


def preview(
    firm: Firm, *, today: date, form: forms.BaseForm | None = None, rows: Iterable[Insurance] | None = None
) -> dict[str, Any]:
    """Return what the preview shows, with what was typed so far where it can be understood."""
    printed = firm_as_printed(firm, on=today, insurances=rows)
    given = getattr(form, "cleaned_data", {}) if form is not None and form.is_bound else {}
    source = reverse("firm_logo", args=[firm.logo_sha256]) if firm.logo_sha256 else ""
    logo: Logo | None = given.get("logo")
    if logo:
        source = "data:image/png;base64," + base64.b64encode(logo.png).decode()
        printed["logo_width"], printed["logo_height"] = printed_size_px(logo.width, logo.height)
    elif given.get("no_logo"):
        source = printed["logo_sha256"] = ""
    return {
        "firm": printed,
        "insurances": insurances_held(printed),
        "logo_source": source,
        "number": NUMBER,
        "lines": LINES,
        "vat": VAT,
        "total": TOTAL,
        "holds_until": today + timedelta(days=firm.quote_valid_days or 0),
        "today": today,
        "shows_vat": bool(firm.vat_number),
    }


def preview_pdf(shown: dict[str, Any]) -> bytes:
    """Return the same as a paper of one sheet."""
    return pdf_from_template("documents/dress.html", shown)
