"""Until when it is at the firm's own risk to send an order: the customer may still cancel."""

from __future__ import annotations

from jobs.quotes.customer.models import Decision
from jobs.quotes.rights.period import stands, time_to_cancel


def own_risk_until(decision: Decision) -> str:
    """Say the last day to cancel, where it has not passed and no early start was asked for; else nothing.

    Without the express request nothing is owed for what was done, and bought, until then.
    """
    if not stands(decision) or hasattr(decision, "early_start"):
        return ""
    time = time_to_cancel(decision)
    return time.last_day_in_words if time and time.has_day_to_come else ""
