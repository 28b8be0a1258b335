from __future__ import annotations

import pytest

from estimating.choices import Part
from jobs.works.as_accepted import accepted_estimate
from tests.jobs.offers import make_job

pytestmark = pytest.mark.django_db


def test_an_option_taken_counts_and_one_left_does_not(offer):
    worked = accepted_estimate(make_job(offer, taken=[Part.LADDER]))
    assert Part.LADDER in worked.choices.counted_parts
    assert Part.LIGHT not in worked.choices.counted_parts


def test_its_price_is_the_price_accepted(offer):
    job = make_job(offer, taken=[Part.LADDER])
    assert accepted_estimate(job).price.totals.gross == job.revision.decision.total
    assert job.revision.decision.total > offer.total
