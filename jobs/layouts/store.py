"""Lay decks from what the worker has proved, and note what it is still to prove. No page waits for it."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import timedelta

from django.db import transaction
from django.utils import timezone

from estimating.deck_json import deck_task_as_json, deck_task_digest, laid_deck_from_json
from estimating.design.boards.lay import Effort, lay_deck
from estimating.design.boards.layout import LaidDeck
from estimating.design.boards.problem import DeckTask
from estimating.design.design import Design
from estimating.estimate import LAID_WHILE_SOMEONE_TYPES
from estimating.refusals import Refusal
from jobs.layouts.models import StoredLayout

State = StoredLayout.State
ASKED_AGAIN_AFTER = timedelta(seconds=10)
"""How stale the note of the last asking may be: pages that are looked at often write seldom."""


@dataclass(frozen=True, slots=True)
class Awaited:
    """What the worker still owes to what a page shows, by digests.

    First the proof of the deck that is shown, then those of the other ways to buy it, one of which may turn
    out cheaper, and last the longer search for the deck that is shown, if its proof left a gap.
    """

    shown: tuple[str, ...] = ()
    others: tuple[str, ...] = ()
    searches: tuple[str, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.shown or self.others or self.searches)


@dataclass(slots=True)
class LayFromStore:
    """Lays the decks of one estimate; call `ask_for_proofs` once it is made, then look at `awaited`.

    What has landed is taken as it is. Anything else is laid at once as well as can be while someone types.
    """

    awaited: Awaited = Awaited()
    _laid_now: int = 0
    _new: dict[str, DeckTask] = field(default_factory=dict)
    _proofs: dict[str, DeckTask] = field(default_factory=dict)
    _searches: dict[str, DeckTask] = field(default_factory=dict)
    _touched: list[str] = field(default_factory=list)
    _unreadable: list[str] = field(default_factory=list)

    def __call__(self, task: DeckTask) -> LaidDeck | None:
        digest = deck_task_digest(deck_task_as_json(task))
        row = (
            StoredLayout.objects.filter(digest=digest)
            .only("state", "laid", "asked_at", "used_on", "digest")
            .first()
        )
        if row is not None:
            self._note(row, task)
            kept = self._read(row)
            if kept is not None:
                return kept
        laid = self._lay_now(task)
        if row is None and not (laid and laid.proved):
            self._new[digest] = task
        return laid

    def _lay_now(self, task: DeckTask) -> LaidDeck | None:
        """Lay a deck unless enough were laid for one answer; the worker lays the others."""
        if self._laid_now == LAID_WHILE_SOMEONE_TYPES:
            return None
        self._laid_now += 1
        return lay_deck(task, Effort.FIRST)

    def ask_for_proofs(self, shown: Design) -> None:
        """Note what is to be proved, the deck that is shown first, once the transaction in hand has ended.

        Whoever holds locks must not hold them over these rows too, and a page that may not write still shows
        its first layout: what cannot be noted is logged and asked for again by the next page.
        """
        problems = tuple(zone.problem for zone in shown.zones)

        def is_shown(asked: tuple[str, DeckTask]) -> bool:
            return asked[1].zones == problems

        proofs = self._proofs | self._new
        first = tuple(digest for digest, _ in filter(is_shown, proofs.items()))
        self.awaited = Awaited(
            first,
            tuple(digest for digest in proofs if digest not in first),
            tuple(digest for digest, _ in filter(is_shown, self._searches.items())),
        )
        self._new = dict(sorted(self._new.items(), key=is_shown, reverse=True))
        if self._new or self._touched or self._unreadable:
            transaction.on_commit(self.write_down, robust=True)

    def write_down(self) -> None:
        """Note it now, for whoever is about to work it off in the same transaction."""
        now = timezone.now()
        asked = {"asked_at": now, "used_on": timezone.localdate(now)}
        if self._new:
            rows = (
                StoredLayout(digest=digest, task=deck_task_as_json(task), **asked)
                for digest, task in self._new.items()
            )
            StoredLayout.objects.bulk_create(rows, ignore_conflicts=True)
        if self._touched:
            StoredLayout.objects.filter(digest__in=self._touched).update(**asked)
        if self._unreadable:
            StoredLayout.objects.filter(digest__in=self._unreadable).update(
                state=State.PROOF_WANTED, laid=None, attempts=0, **asked
            )

    def _note(self, row: StoredLayout, task: DeckTask) -> None:
        now = timezone.now()
        if row.state == State.PROOF_WANTED:
            self._proofs[row.digest] = task
        elif row.state == State.SEARCH_WANTED:
            self._searches[row.digest] = task
        is_wanted = row.state in (State.PROOF_WANTED, State.SEARCH_WANTED)
        asked_anew = is_wanted and now - row.asked_at > ASKED_AGAIN_AFTER
        if asked_anew or row.used_on != timezone.localdate(now):
            self._touched.append(row.digest)

    def _read(self, row: StoredLayout) -> LaidDeck | None:
        """Read what landed; what an older program wrote in another shape is as good as nothing."""
        if row.laid is None:
            return None
        try:
            return laid_deck_from_json(row.laid)
        except Refusal:
            self._unreadable.append(row.digest)
            return None
