from __future__ import annotations

from collections.abc import Callable
from functools import cache

import pytest

from estimating.estimate import Estimate, estimate
from estimating.stored_boards import StoredBoards
from jobs.store.models import StoredBoard
from jobs.works.models import Job
from tests.estimating import lofts
from tests.jobs.offers import make_job, make_offer

PUT_IN = StoredBoards(board_code="B22", length_mm=2400, count=2)


@cache
def worked_from_store() -> Estimate:
    """The trussed loft, two of whose boards are at hand."""
    return estimate(lofts.trussed_loft(), lofts.price_book(), lofts.choices(store=(PUT_IN,)))


@pytest.fixture
def put_in(office) -> Callable[..., StoredBoard]:
    """Put boards into the store; what is not said is as what the offers here count on."""

    def put(**changes: object) -> StoredBoard:
        fields = {"board_code": "B22", "length_mm": 2400, "count": 2, "description": "chipboard"}
        return StoredBoard.objects.create(**{**fields, **changes}, added_by=office)

    return put


@pytest.fixture
def offer_from_store(firm, survey, office):
    return make_offer(survey, office, worked=worked_from_store())


@pytest.fixture
def finished(job: Job) -> Job:
    """A job that used nothing from the store and is complete."""
    Job.objects.filter(pk=job.pk).update(state=Job.State.COMPLETE)
    job.refresh_from_db()
    return job


@pytest.fixture
def job_from_store(offer_from_store) -> Job:
    return make_job(offer_from_store)
