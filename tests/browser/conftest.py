"""The cast of the rooms' tests, for tests that walk through all the rooms."""

from __future__ import annotations

from tests.jobs.conftest import crew, edition, firm, office, surveyor

__all__ = ["crew", "edition", "firm", "office", "surveyor"]
