"""Two surveys of one property, question by question: what changed, as typed and as understood."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from estimating.published.hazards import HAZARDS
from jobs.surveys.models import Finding, Photograph, Survey
from jobs.surveys.progress import Line, answered
from jobs.surveys.sections import SECTIONS


@dataclass(frozen=True, slots=True)
class Said:
    """An answer as it was typed, and what was understood where that is not the same."""

    typed: str
    understood: str = ""


NOTHING = Said("")


@dataclass(frozen=True, slots=True)
class Difference:
    """One question that was answered differently; an answer that is not there is empty."""

    label: str
    before: Said
    after: Said

    @property
    def word(self) -> str:
        """Say in a word what happened, so that no mark or colour need be seen."""
        if not self.before.typed:
            return "added"
        return "changed" if self.after.typed else "taken out"

    @property
    def means_the_same(self) -> bool:
        """Tell whether it was only written in another way."""
        return bool(self.before.understood) and self.before.understood == self.after.understood


@dataclass(frozen=True, slots=True)
class ChangedSection:
    title: str
    differences: tuple[Difference, ...]


def differences(before: Survey, after: Survey) -> list[ChangedSection]:
    """Return what is different between two surveys, section by section in the order of the visit."""
    told = [ChangedSection("The visit", tuple(_of_the_visit(before, after)))]
    for section in SECTIONS:
        if section.key == "hazards":
            found = _of_hazards(before, after)
        elif section.key == "photographs":
            found = _of_photographs(before, after)
        else:
            found = _of_answers(before, after, section.key)
        told.append(ChangedSection(section.title, tuple(found)))
    return [each for each in told if each.differences]


def _of_the_visit(before: Survey, after: Survey) -> Iterator[Difference]:
    days = (Said(f"{each.visited_on.day} {each.visited_on:%B %Y}") for each in (before, after))
    yield from _if_different("Day of the visit", *days)


def _if_different(label: str, before: Said, after: Said) -> Iterator[Difference]:
    if before != after:
        yield Difference(label, before, after)


def _of_hazards(before: Survey, after: Survey) -> Iterator[Difference]:
    was, is_now = (
        {finding.hazard: _finding(finding) for finding in survey.findings.select_related("clearance")}
        for survey in (before, after)
    )
    for hazard in HAZARDS:
        yield from _if_different(hazard.title, was.get(hazard.key, NOTHING), is_now.get(hazard.key, NOTHING))


def _finding(finding: Finding) -> Said:
    words = f": {finding.words}" if finding.words else ""
    cleared = f"; cleared by {finding.clearance}" if hasattr(finding, "clearance") else ""
    return Said(f"{finding.get_seen_display()}{words}{cleared}")


def _of_photographs(before: Survey, after: Survey) -> Iterator[Difference]:
    was, is_now = (
        {photograph.sha256: photograph for photograph in survey.photographs.all()}
        for survey in (before, after)
    )
    for digest, photograph in (was | is_now).items():
        if (digest in was) != (digest in is_now):
            said = Said(_shown(photograph))
            yield Difference("A photograph", *((said, NOTHING) if digest in was else (NOTHING, said)))


def _shown(photograph: Photograph) -> str:
    return photograph.shows or "no words with it"


def _of_answers(before: Survey, after: Survey, section: str) -> Iterator[Difference]:
    """Compare answers by their names; a row of the plan keeps its number when a survey is copied."""
    was, is_now = ({line.name: line for line in answered(each, section)} for each in (before, after))
    told_whole = ({_row_of(name) for name in was} ^ {_row_of(name) for name in is_now}) - {""}
    for name, line in (was | is_now).items():
        if _row_of(name) not in told_whole:
            label = _named(line, is_now if name in is_now else was)
            yield from _if_different(label, _said(was.get(name)), _said(is_now.get(name)))
    for row in sorted(told_whole):
        yield Difference(_row_named(row, was | is_now), _whole_row(row, was), _whole_row(row, is_now))


def _row_of(name: str) -> str:
    """Return the row that an answer belongs to, such as zones-3, or nothing."""
    return name.rpartition("-")[0]


def _said(line: Line | None) -> Said:
    return Said(line.typed, line.understood or line.error) if line else NOTHING


def _named(line: Line, lines: Mapping[str, Line]) -> str:
    """Return a label; that of a row of the plan with the name that the row was given."""
    row = _row_of(line.name)
    return f"{_row_named(row, lines)}: {line.label.partition(': ')[2]}" if row else line.label


def _row_named(row: str, lines: Mapping[str, Line]) -> str:
    called = next(line.label.partition(": ")[0] for name, line in lines.items() if _row_of(name) == row)
    given = lines.get(f"{row}-name")
    return f"{called} ({given.typed})" if given else called


def _whole_row(row: str, lines: Mapping[str, Line]) -> Said:
    answers = (line for name, line in lines.items() if _row_of(name) == row)
    return Said("; ".join(f"{line.label.partition(': ')[2]} {line.typed}" for line in answers))
