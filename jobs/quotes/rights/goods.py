"""When the last goods came to the customer: the office knows, and the time for cancelling follows it."""

from __future__ import annotations

from datetime import date

from django.db import transaction

from jobs.quotes.customer.models import Decision


@transaction.atomic
def keep_last_goods(decision: Decision, *, on: date | None) -> None:
    """Keep the day, or that goods are still to come."""
    locked = Decision.objects.select_for_update(of=("self",)).get(pk=decision.pk)
    locked.last_goods_on = on
    locked.save(update_fields=["last_goods_on"])
