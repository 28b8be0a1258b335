"""A job's accepted quote as the core's Estimate, from the frozen copy and the options that were taken."""

from __future__ import annotations

from dataclasses import replace

from estimating.estimate import Estimate
from jobs.quotes.frozen import frozen_estimate, price_with, taken_parts
from jobs.works.models import Job


def accepted_estimate(job: Job) -> Estimate:
    """Return what was accepted: the alternative picked as it was frozen, with only the options taken.

    Nothing is designed or counted anew: what is ordered and built is what was priced and drawn that day,
    whatever the price book, the settings or the core itself say by now.
    """
    worked, taken = frozen_estimate(job.revision), taken_parts(job.revision)
    return replace(
        worked,
        choices=replace(worked.choices, taken_parts=taken),
        price=price_with(job.revision, taken),
    )
