"""A migration of an installation that holds rows must run on either database."""

from __future__ import annotations

from django.db.migrations.loader import MigrationLoader
from django.db.migrations.operations import RunPython
from django.db.migrations.operations.base import Operation

READS_WHAT_IT_REMOVES = "0005_set_targets_by_nation_and_fuel_prices"
"""Its rows refer to no other table, so that nothing waits when the column that they were read from goes."""


def _operations() -> dict[str, list[Operation]]:
    found = MigrationLoader(None).disk_migrations
    return {name: migration.operations for (app, name), migration in found.items() if app == "jobs"}


def test_rows_are_written_after_a_migrations_last_change_of_tables():
    """PostgreSQL alters no table whose rows were written in the same transaction: their checks still wait.

    From memory: "cannot ALTER TABLE because it has pending trigger events".
    """
    writes = {name: [isinstance(each, RunPython) for each in found] for name, found in _operations().items()}
    assert any(any(kinds) for kinds in writes.values())
    assert {name for name, kinds in writes.items() if kinds != sorted(kinds)} == {READS_WHAT_IT_REMOVES}
