"""Until when an accepted contract may be cancelled: by both ways of counting, the later one printed."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any

from django.utils import timezone

from estimating.contracts.cancelling import CancellationPeriod, LastDay, cancellation_period
from estimating.days import day_in_words
from jobs.quotes.customer.models import Decision
from jobs.quotes.models import Revision
from jobs.quotes.rights.told import Rights, rights_of, was_told


@dataclass(frozen=True, slots=True)
class TimeToCancel:
    """The period of one contract, with the day it is asked for."""

    period: CancellationPeriod
    rights: Rights
    today: date

    @property
    def is_running(self) -> bool:
        return self.period.may_cancel_on(self.today)

    @property
    def has_day_to_come(self) -> bool:
        """Tell whether the printed last day has not passed, whatever goods still to come may make of it."""
        return self.today <= self.period.last_day.on

    @property
    def both(self) -> tuple[LastDay, ...]:
        """Return each way of counting that has a day."""
        found = self.period.by_contract, self.period.by_goods
        return tuple(each for each in found if each is not None)

    @property
    def last_day_in_words(self) -> str:
        return day_in_words(self.period.last_day.on)

    @property
    def how_it_may_move(self) -> str:
        """Say that the last day is not sure yet, and what moves it; empty when it is."""
        if not self.period.may_move:
            return ""
        days = self.rights.terms.cancel_within_days
        return (
            f"Goods are still to come. The last day becomes {days} days after the day on which the last of "
            "them arrived, if that is later."
        )

    def as_kept(self) -> dict[str, Any]:
        """Return the record of how the last day stood."""
        return {
            "printed": self.period.last_day.on.isoformat(),
            "may_move": self.period.may_move,
            "ways": [
                {"counted_from": each.counted_from.value, "on": each.on.isoformat(), "why": each.why}
                for each in self.both
            ],
            "source": self.period.source,
        }


def time_to_cancel(decision: Decision, *, today: date | None = None) -> TimeToCancel | None:
    """Return until when an acceptance may be cancelled, or None where nobody gives that right."""
    rights = rights_of(decision.revision)
    if decision.kind != Decision.Kind.ACCEPTED or not rights.cancellable:
        return None
    made = timezone.localdate(decision.decided_at)
    period = cancellation_period(
        contract_made=made,
        last_goods_delivered=last_goods_on(decision),
        information_given=made if was_told(decision.revision) else None,
        terms=rights.terms,
    )
    return TimeToCancel(period, rights, today or timezone.localdate())


def last_goods_on(decision: Decision) -> date | None:
    """Return the day the last goods came, as the office wrote it; finished work has had all of them."""
    if decision.last_goods_on:
        return decision.last_goods_on
    job = getattr(decision.revision, "job", None)
    done = job.completed_at if job else None
    return timezone.localdate(done) if done else None


def stands(decision: Decision | None) -> bool:
    """Tell whether an acceptance stands: the contract was not cancelled since."""
    return decision is not None and decision.revision.state == Revision.State.ACCEPTED
