"""What of the checks matters to whoever will live with the deck, in words for the sofa."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from estimating.checks.subjects import Question, by_question
from estimating.checks.verdicts import Checks, Verdict
from estimating.checks.warmth.heat_records import UValueRange
from estimating.published.loads import LIGHT_STORAGE_KG_M2
from estimating.survey import Severity
from estimating.working import Figure
from jobs.templatetags.shown import millimetres, two_figures

THEIR_CONCERN = (Question.FOUND, Question.WARMTH, Question.AIR, Question.CARRY)
"""How a board goes up and how the deck is laid is the firm's concern, unless it stops the work."""

TRADE_ONLY = frozenset({"old span table"})
"""Told to the office as builders know it; one word on the joists is enough at home."""

ASK_ENGINEER = "Ask a structural engineer before you store more."
ASK_DESIGNER = (
    "Deck and added insulation are taken off already. Ask the truss designer before you store more."
)
NOTHING = (
    "Ask a structural engineer before anything is stored: the joists are outside the limits as they are."
)


@dataclass(frozen=True, slots=True)
class Told:
    """One figure as the customer reads it: what it is, how much, what to know of it, and its likely range."""

    name: str
    shown: str
    note: str
    figure: Figure[Any]
    also: Figure[Any] | None = None
    between: str = ""

    @property
    def with_range(self) -> str:
        return f"{self.shown}, likely {self.between}" if self.between else self.shown


def what_to_know(checks: Checks) -> list[tuple[Question, list[Verdict]]]:
    """Return stops and cautions that are the customer's concern, by the question each answers."""
    cautions = [each for each in checks.cautions if each.subject not in TRADE_ONLY]
    grave = [*checks.stops, *cautions]
    told = [
        (question, [each for each in verdicts if question in THEIR_CONCERN or each.severity is Severity.STOP])
        for question, verdicts in by_question(grave).items()
    ]
    return [(question, verdicts) for question, verdicts in told if verdicts]


def heat_told(checks: Checks) -> list[Told]:
    """Return the U-values, the lowest being the best, each with what it may be as wool really lies."""
    heat, ranges = checks.heat, checks.heat.ranges
    return [
        _u_value("As we found it", heat.as_found, ranges and ranges.as_found),
        _u_value("As we propose it", heat.as_proposed, ranges and ranges.as_proposed),
        _u_value(
            "If the same insulation were squashed to the joists",
            heat.squashed,
            ranges and ranges.squashed,
            "an estimate",
        ),
    ]


def _u_value(name: str, figure: Figure[Decimal], within: UValueRange | None, note: str = "") -> Told:
    between = range_in_words(within) if within else ""
    return Told(name, two_figures(figure.value), note, figure, within and within.most, between)


def range_in_words(within: UValueRange) -> str:
    """Return the range as it is reported, or nothing where both ends are reported alike."""
    least, most = (two_figures(each.value) for each in (within.least, within.most))
    return f"{least} to {most}" if least != most else ""


def saving_in_words(checks: Checks) -> list[str]:
    """Return what a year may spare, in the range and with the doubt that the check itself says."""
    return [verdict.words for verdict in checks.verdicts if verdict.subject == "saving"]


def room_told(checks: Checks, gap: Figure[int]) -> list[Told]:
    """Return what the deck may carry and the room over and under it."""
    return [
        *_storage(checks),
        Told("Air between insulation and boards", millimetres(gap.value), "", gap),
        Told("Headroom under the ridge", millimetres(checks.headroom_mm.value), "", checks.headroom_mm),
    ]


def _storage(checks: Checks) -> Iterator[Told]:
    """Never more than light storage: what a joist carries beyond it is the engineer's to say."""
    for joists in checks.joists:
        name = "Storage, on each square metre" + (f", {joists.joist_field}" if len(checks.joists) > 1 else "")
        left = joists.storage_kg_m2
        if left is None or not left.value:
            yield Told(name, "0 kg", NOTHING, joists.most_used if left is None else left)
        else:
            yield Told(name, f"{min(left.value, LIGHT_STORAGE_KG_M2)} kg", ASK_ENGINEER, left)
    if checks.trusses:
        left = checks.trusses.storage_kg_m2
        yield Told("Storage, on each square metre", f"{left.value} kg", ASK_DESIGNER, left)
