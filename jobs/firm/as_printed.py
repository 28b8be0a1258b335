"""The firm as its papers show it on one day: what a quote freezes, so that later settings cannot reach it."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Any

from jobs.firm.accent import is_for_text
from jobs.firm.insurance_models import Insurance
from jobs.firm.kinds import legal_words
from jobs.firm.logo import printed_size_px
from jobs.firm.models import Firm

_FIELDS = (
    "name", "address", "phone", "email", "company_number", "vat_number", "terms", "quote_valid_days",
    "closing_words", "accent_colour", "logo_sha256",
    "bank_account_name", "bank_sort_code", "bank_account_number",
)  # fmt: skip


def firm_as_printed(firm: Firm, *, on: date, insurances: Iterable[Insurance] | None = None) -> dict[str, Any]:
    """Return what papers say of the firm and how they look; an insurance that has run out is left away."""
    held = Insurance.objects.all() if insurances is None else insurances
    width, height = printed_size_px(firm.logo_width, firm.logo_height)
    return {
        **{name: getattr(firm, name) for name in _FIELDS},
        "deposit_percent": str(firm.deposit_percent),
        "logo_width": width,
        "logo_height": height,
        "legal_words": legal_words(firm),
        "accent_for_text": bool(firm.accent_colour) and is_for_text(firm.accent_colour),
        "insurances": [
            {
                "what": each.what,
                "insurer": each.insurer,
                "policy_number": each.policy_number,
                "until": each.until.isoformat(),
            }
            for each in held
            if each.until >= on
        ],
    }


def insurances_held(printed: dict[str, Any]) -> list[dict[str, Any]]:
    """Return the insurances that a frozen copy names, none in one from before they were asked for."""
    return [{**each, "until": date.fromisoformat(each["until"])} for each in printed.get("insurances", ())]
