"""What of the checks matters to whoever will live with the deck, in words for the sofa."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from estimating.checks.subjects import Question, by_question
from estimating.checks.verdicts import Checks, Verdict
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
    """One figure as the customer reads it: what it is, how much, and what to know of it."""

    name: str
    shown: str
    note: str
    figure: Figure[int]
    also: Figure[int] | None = None


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
    """Return the U-values, the lowest being the best."""
    heat = checks.heat
    return [
        Told("As we found it", two_figures(heat.as_found.value), "", heat.as_found),
        Told("As we propose it", two_figures(heat.as_proposed.value), "", heat.as_proposed),
        Told(
            "If the same insulation were squashed to the joists",
            two_figures(heat.squashed.value),
            "an estimate",
            heat.squashed,
        ),
    ]


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
