"""The cast of the rooms' tests, whose quotes, orders and jobs the papers are made of."""

from __future__ import annotations

from tests.jobs.conftest import building, crew, firm, job, logged_in, offer, office, survey, surveyor

__all__ = ["building", "crew", "firm", "job", "logged_in", "offer", "office", "survey", "surveyor"]
