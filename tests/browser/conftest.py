"""The cast of the rooms' tests, for tests that walk through all the rooms."""

from __future__ import annotations

from tests.jobs.conftest import building, crew, edition, firm, office, owner, survey, surveyor

__all__ = ["building", "crew", "edition", "firm", "office", "owner", "survey", "surveyor"]
