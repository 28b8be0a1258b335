"""What the pages of customer and office say of the rights: the law's words, the last day, what was said."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.utils import timezone

from jobs.quotes.customer.models import Decision
from jobs.quotes.frozen import alternative_names
from jobs.quotes.models import Revision
from jobs.quotes.rights.cancelling import settlement_shown, why_not_cancel
from jobs.quotes.rights.early_start import why_no_early_start
from jobs.quotes.rights.period import time_to_cancel
from jobs.quotes.rights.told import rights_of


def rights_shown(revision: Revision) -> dict[str, Any]:
    """Return what is told of the rights of a revision, and what came of them once it was accepted."""
    shown: dict[str, Any] = {"rights": rights_of(revision)}
    decision = getattr(revision, "decision", None)
    if decision is None or decision.kind != Decision.Kind.ACCEPTED:
        return shown
    said = getattr(decision, "cancellation", None)
    return shown | {
        "time": time_to_cancel(decision),
        "alternative_taken": alternative_names(revision)[decision.alternative],
        "may_cancel": not why_not_cancel(decision),
        "early_start": getattr(decision, "early_start", None),
        "may_ask_early_start": not hasattr(decision, "early_start") and not why_no_early_start(decision),
        "cancellation": said,
        "settlement": settlement_shown(said) if said else None,
        "last_day_then": date.fromisoformat(said.period["printed"]) if said else None,
        "today": timezone.localdate(),
    }
