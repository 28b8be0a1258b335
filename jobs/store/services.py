"""Put boards into the store and take them out."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from django.contrib.auth.models import User
from django.db import transaction

from estimating.design.boards.cutting_list import KeptOffcuts, offcuts_worth_keeping
from jobs.store.at_hand import counted_on, rows_at_hand
from jobs.store.models import LEAST_PIECE_MM, StoredBoard
from jobs.works.as_accepted import accepted_estimate
from jobs.works.models import Job

LEAVES_OFFCUTS = (Job.State.COMPLETE, Job.State.HANDED_OVER, Job.State.CLOSED)


class StoreRefused(Exception):
    """The store cannot change so; the message says why."""


@dataclass(frozen=True, slots=True)
class CountedOn:
    """Boards of one length that a job counts on from the store: how many, and how many are not taken out."""

    description: str
    length_mm: int
    count: int
    missing: int


@transaction.atomic
def take_out(row: StoredBoard, *, count: int) -> None:
    """Take so many boards out of the store for no job that the book knows of."""
    locked = StoredBoard.objects.select_for_update().filter(pk=row.pk, taken_for=None).first()
    if locked is None or count > locked.count:
        left = locked.count if locked else 0
        raise StoreRefused(f"There are only {left} of these in the store: nothing was taken out.")
    _lessen(locked, count)


@transaction.atomic
def take_for_job(job: Job) -> int:
    """Take out what a job counts on and has not yet, as far as it is there; return how many were taken."""
    job = Job.objects.select_for_update(of=("self",)).select_related("revision").get(pk=job.pk)
    taken = 0
    for (code, length_mm), wanted in _not_taken_yet(job).items():
        left = wanted
        rows = rows_at_hand().select_for_update().filter(board_code=code, length_mm=length_mm)
        for row in rows.order_by("pk"):
            moved = min(left, row.count)
            if moved:
                _take_for(job, row, moved)
                left -= moved
        taken += wanted - left
    return taken


@transaction.atomic
def give_back(job: Job) -> int:
    """Put boards back that were taken out for a job that is not done, and return how many."""
    rows = list(job.boards_taken.select_for_update())
    job.boards_taken.update(taken_for=None)
    return sum(row.count for row in rows)


def what_job_counts_on(job: Job) -> list[CountedOn]:
    """Return what a job takes from the store, and what of it is still missing."""
    missing = _not_taken_yet(job)
    book = {each["code"]: each["description"] for each in _frozen_products(job)}
    return [
        CountedOn(
            description=book.get(each.board_code, each.board_code),
            length_mm=each.length_mm,
            count=each.count,
            missing=missing[each.board_code, each.length_mm],
        )
        for each in counted_on(job.revision)
    ]


def offcuts_of(job: Job) -> tuple[KeptOffcuts, ...]:
    """Return the offcuts of a job that can be cut from again: full width, and long enough for a piece."""
    kept = offcuts_worth_keeping(accepted_estimate(job).design.cuts)
    return tuple(each for each in kept if each.full_width and each.length_mm >= LEAST_PIECE_MM)


@transaction.atomic
def keep_offcuts(job: Job, *, by: User) -> int:
    """Put the offcuts of a finished job into the store, once, and return how many."""
    job = Job.objects.select_for_update(of=("self",)).select_related("revision__decision").get(pk=job.pk)
    if job.state not in LEAVES_OFFCUTS:
        raise StoreRefused(f"{job.number} is not complete: its offcuts are still needed.")
    if job.boards_left.exists():
        raise StoreRefused(f"The offcuts of {job.number} are in the store already.")
    book = {each["code"]: each["description"] for each in _frozen_products(job)}
    rows = [
        StoredBoard(
            board_code=each.code,
            description=book.get(each.code, each.code),
            length_mm=each.length_mm,
            count=each.count,
            cut=True,
            left_by=job,
            added_by=by,
        )
        for each in offcuts_of(job)
    ]
    StoredBoard.objects.bulk_create(rows)
    return sum(row.count for row in rows)


def _not_taken_yet(job: Job) -> Counter[tuple[str, int]]:
    wanted = Counter({(each.board_code, each.length_mm): each.count for each in counted_on(job.revision)})
    for row in job.boards_taken.all():
        wanted[row.board_code, row.length_mm] -= row.count
    return +wanted


def _take_for(job: Job, row: StoredBoard, count: int) -> None:
    """Keep what is taken as a row of its own, so that the store can tell where it went."""
    StoredBoard.objects.create(
        board_code=row.board_code,
        description=row.description,
        length_mm=row.length_mm,
        count=count,
        cut=row.cut,
        note=row.note,
        left_by=row.left_by,
        taken_for=job,
        added_by=row.added_by,
    )
    _lessen(row, count)


def _lessen(row: StoredBoard, count: int) -> None:
    if count == row.count:
        row.delete()
    else:
        row.count -= count
        row.save(update_fields=["count"])


def _frozen_products(job: Job) -> list[dict[str, str]]:
    products: list[dict[str, str]] = job.revision.issued["price_book"]["products"]
    return products
