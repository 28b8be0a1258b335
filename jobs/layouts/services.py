"""Prove the layouts that pages asked for, search longer where a gap was left, forget what nobody uses."""

from __future__ import annotations

import logging
from dataclasses import replace
from datetime import datetime, timedelta

from django.db import transaction
from django.db.models import Q
from django.utils import timezone

from estimating.deck_json import deck_task_from_json, laid_deck_as_json, laid_deck_from_json
from estimating.design.boards.lay import Effort, lay_deck
from estimating.design.boards.layout import Bound, LaidDeck, Layout
from jobs.layouts.models import StoredLayout

State = StoredLayout.State
logger = logging.getLogger("eavesbook.layouts")

WORTH_PROVING = timedelta(hours=1)
"""Who asked longer ago has closed the page; opening it again asks again."""
KEPT_UNUSED = timedelta(days=7)
MOST_ATTEMPTS = 2
"""A task that ends its worker must not end every worker after it."""
LEASE = {State.PROOF_WANTED: timedelta(minutes=1), State.SEARCH_WANTED: timedelta(minutes=30)}
"""After so long a worker that took a task is thought dead, and another may take it."""


def prove_wanted_layouts(*, at_most: int = 20) -> int:
    """Prove what pages wait for, the newest asked first, and return how many tasks were taken."""
    return _work_off(State.PROOF_WANTED, Effort.PROOF, at_most)


def search_longer(*, at_most: int = 1) -> int:
    """Search with patience where the proof left a gap, once for each task, and return how many were taken."""
    return _work_off(State.SEARCH_WANTED, Effort.LONG, at_most)


def forget_unused_layouts(now: datetime) -> None:
    """Throw away what no page has shown for days, and what was asked for in passing and never proved."""
    unused_since = timezone.localdate(now - KEPT_UNUSED)
    passed_by = Q(state=State.PROOF_WANTED, asked_at__lt=now - timedelta(days=1))
    StoredLayout.objects.filter(Q(used_on__lt=unused_since) | passed_by).delete()


def _work_off(state: str, effort: Effort, at_most: int) -> int:
    for taken in range(at_most):
        row = _take(state)
        if row is None:
            return taken
        try:
            _keep(row, lay_deck(deck_task_from_json(row.task), effort), effort)
        except Exception:  # whatever it is, the next task must still be looked at
            logger.exception("layout failed", extra={"figures": {"layout": row.digest}})
            _put_back(row)
    return at_most


def _take(state: str) -> StoredLayout | None:
    """Take the newest task in such a state, so that no other worker takes it for as long as the lease."""
    now = timezone.now()
    wanted = (
        StoredLayout.objects.filter(state=state, asked_at__gte=now - WORTH_PROVING)
        .filter(Q(taken_at=None) | Q(taken_at__lt=now - LEASE[State(state)]))
        .order_by("-asked_at", "pk")
    )
    if not wanted.exists():  # asked every second: without a transaction, and nothing is locked
        return None
    with transaction.atomic():
        row = wanted.select_for_update(skip_locked=True).first()
        if row is not None:
            row.taken_at, row.attempts = now, row.attempts + 1
            if row.attempts > MOST_ATTEMPTS:
                _give_up(row)
            row.save(update_fields=["taken_at", "attempts", "state"])
    return row if row is not None and row.state == state else None


def _keep(row: StoredLayout, laid: LaidDeck, effort: Effort) -> None:
    if row.laid is not None:
        laid = _better(laid_deck_from_json(row.laid), laid)
    has_gap = laid.bound is not None and not laid.proved and not _unlaid(laid)
    row.state = State.SEARCH_WANTED if has_gap and effort is Effort.PROOF else State.LANDED
    row.laid, row.landed_at = laid_deck_as_json(laid), timezone.now()
    row.attempts, row.taken_at = 0, None
    row.save(update_fields=["state", "laid", "landed_at", "attempts", "taken_at"])


def _put_back(row: StoredLayout) -> None:
    if row.attempts >= MOST_ATTEMPTS:
        _give_up(row)
    row.taken_at = None
    row.save(update_fields=["taken_at", "state"])


def _give_up(row: StoredLayout) -> None:
    """A longer search that fails leaves what the proof found."""
    row.state = State.GIVEN_UP if row.laid is None else State.LANDED


def _better(before: LaidDeck, after: LaidDeck) -> LaidDeck:
    """Keep the cheaper layout and the higher bound, whichever search found them."""
    best = min((after, before), key=lambda laid: (_unlaid(laid), laid.cost))
    bounds = [each.bound for each in (after, before) if each.bound is not None]
    return replace(best, bound=max(bounds, key=_least, default=None))


def _unlaid(laid: LaidDeck) -> int:
    return sum(not isinstance(zone, Layout) for zone in laid.zones)


def _least(bound: Bound) -> int:
    return bound.least
