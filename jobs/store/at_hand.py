"""The store as the core's records, and what an accepted quote counts on from it."""

from __future__ import annotations

from collections import Counter

from django.db.models import QuerySet

from estimating.json_records import read_record
from estimating.stored_boards import StoredBoards
from jobs.quotes.models import Revision
from jobs.store.models import StoredBoard


def rows_at_hand() -> QuerySet[StoredBoard]:
    """Return what is in the store and not taken out for a job."""
    return StoredBoard.objects.filter(taken_for=None)


def boards_at_hand() -> tuple[StoredBoards, ...]:
    """Return the store as the core takes it, like boards together."""
    counts: Counter[tuple[str, int, bool]] = Counter()
    for row in rows_at_hand():
        counts[row.board_code, row.length_mm, row.cut] += row.count
    return tuple(
        StoredBoards(board_code=code, length_mm=length, count=count, cut=cut)
        for (code, length, cut), count in sorted(counts.items())
    )


def counted_on(revision: Revision) -> tuple[StoredBoards, ...]:
    """Return what an issued revision takes from the store, from its frozen copy."""
    frozen = revision.issued.get("estimate", {}).get("quantities", {}).get("from_store", [])
    return tuple(read_record(StoredBoards, each) for each in frozen)
