"""The hazard list as a form: every hazard is answered yes, no or could not be seen, with words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from django import forms

from estimating.published.hazards import HAZARDS, Hazard
from estimating.survey import Severity
from jobs.forms import SheetForm, settle_fields
from jobs.surveys.forms import PickField, WordsField
from jobs.surveys.models import Finding


@dataclass(frozen=True, slots=True)
class Question:
    """One hazard with its two fields and what was found before."""

    hazard: Hazard
    seen: forms.BoundField
    words: forms.BoundField
    finding: Finding | None


class HazardForm(SheetForm):
    """The answers live in Finding rows, because stops are cleared and photographs are tied to them.

    `waiting` are words, named as their boxes, about hazards that are not answered yet.
    """

    def __init__(
        self,
        typed: Mapping[str, Any] | None,
        *,
        findings: Mapping[str, Finding],
        waiting: Mapping[str, str] | None = None,
    ) -> None:
        self.findings = findings
        initial = dict(waiting or {})
        initial |= {f"seen_{key}": finding.seen for key, finding in findings.items()}
        initial |= {f"words_{key}": finding.words for key, finding in findings.items()}
        super().__init__(data=typed, initial=initial)
        for hazard in HAZARDS:
            seen = PickField(*Finding.Seen.choices, label=hazard.title)
            words = WordsField("What was seen, and where", lines=2)
            seen.disabled = words.disabled = self._is_cleared(hazard.key)
            self.fields[f"seen_{hazard.key}"], self.fields[f"words_{hazard.key}"] = seen, words
        settle_fields(self)

    def _is_cleared(self, key: str) -> bool:
        finding = self.findings.get(key)
        return finding is not None and hasattr(finding, "clearance")

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean() or self.cleaned_data
        for hazard in HAZARDS:
            seen, words = cleaned.get(f"seen_{hazard.key}"), cleaned.get(f"words_{hazard.key}")
            if hazard.severity == Severity.STOP and seen == Finding.Seen.YES and not words:
                self.add_error(f"words_{hazard.key}", f"{hazard.title}: say what was seen, and where.")
        return cleaned

    def answered(self) -> Iterator[tuple[str, str, str]]:
        """Yield (hazard, seen, words) of every hazard that something was said about, complete or not."""
        for hazard in HAZARDS:
            seen = self.cleaned_data.get(f"seen_{hazard.key}") or ""
            words = str(self[f"words_{hazard.key}"].value() or "").strip()
            is_told = seen or f"words_{hazard.key}" in self.data
            if is_told and not self._is_cleared(hazard.key):
                yield hazard.key, seen, words

    def questions(self) -> Iterator[Question]:
        """Yield every hazard with its fields, in the order of the list."""
        for hazard in HAZARDS:
            seen, words = self[f"seen_{hazard.key}"], self[f"words_{hazard.key}"]
            yield Question(hazard, seen, words, self.findings.get(hazard.key))
