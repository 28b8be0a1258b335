"""The version of the questions that a survey asks."""

from __future__ import annotations

FORM_VERSION = 2
"""Goes up when a question is renamed, removed or comes to mean something else. A survey keeps the version
that it was opened with, and every change from a tablet the one that it was made in. Until version 2 the rows
of the plan were moved up when one was removed."""
