"""How what a customer said reached us."""

from __future__ import annotations

from dataclasses import dataclass

from jobs.quotes.customer.models import CustomerLink


@dataclass(frozen=True, slots=True, kw_only=True)
class Evidence:
    """The link that was used, and where from; without a link somebody of the firm wrote it down."""

    link: CustomerLink | None
    address: str | None
    browser: str
