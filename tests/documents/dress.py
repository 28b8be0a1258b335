"""A firm in its whole dress, under the name that its tests know it by."""

from __future__ import annotations

from datetime import date

from jobs.demo.dress import dress_firm
from jobs.firm.models import Firm


def dress(firm: Firm, **changes: object) -> Firm:
    """Give a firm everything that its papers can show, with changes, and save it."""
    dress_firm(firm, today=date(2026, 11, 26))
    given = {"company_number": "00000000", "vat_number": "GB 999 9999 73"} | changes
    for name, value in given.items():
        setattr(firm, name, value)
    firm.save()
    return firm
