"""What a reader asks of a loft, and which check answers it."""

from __future__ import annotations

from collections.abc import Iterable
from enum import StrEnum

from estimating.checks.verdicts import Verdict

SURVEY = "survey"
"""The source of a verdict that passes on what the surveyor found."""


class Question(StrEnum):
    """The groups in which checks are shown, in the order a householder asks."""

    FOUND = "Found at the survey"
    WARMTH = "Warmth"
    AIR = "Air and moisture"
    CARRY = "What the joists carry"
    WAY_UP = "Way up and headroom"
    DECK = "The deck"


_BY_WORD = {
    Question.AIR: "gap moisture ventilation eaves condensation air",
    Question.WARMTH: "heat saving target energy rating assessor warmth u-value insulation",
    Question.CARRY: "joist joists trussed truss trusses notch notches hole holes storage tank table tables "
    "structure span spans cut panels",
    Question.WAY_UP: "hatch headroom access ladder lift lifting lifts handling roll rolls weight strip",
}
"""Words of a subject, the first question that knows one first: a gap above insulation is about air."""


def question_of(verdict: Verdict) -> Question:
    """Tell which question a verdict answers.

    A page of many verdicts stays readable when each stands under what it is about.

    Args:
        verdict: The verdict. Record. [-]

    Returns:
        The question; what no word of its subject belongs to is about the deck. Member. [-]

    Source:
        Own definition.
    """
    if verdict.source == SURVEY:
        return Question.FOUND
    return question_of_words(verdict.subject)


def question_of_words(subject: str) -> Question:
    """Tell which question a subject belongs to.

    Args:
        subject: The subject of a verdict, or the name of a record of figures. Text. [-]

    Returns:
        The question. Member. [-]

    Source:
        Own definition.
    """
    words = set(subject.lower().replace("_", " ").split())
    for question, known in _BY_WORD.items():
        if words & set(known.split()):
            return question
    return Question.DECK


def by_question(verdicts: Iterable[Verdict]) -> dict[Question, tuple[Verdict, ...]]:
    """Sort verdicts under the questions that they answer.

    Args:
        verdicts: The verdicts, the gravest first. Iterable. [-]

    Returns:
        The questions that have an answer, in order, each with its verdicts in theirs. Mapping. [-]

    Source:
        Own definition.
    """
    told = list(verdicts)
    found = {question: tuple(each for each in told if question_of(each) is question) for question in Question}
    return {question: group for question, group in found.items() if group}
