"""What the paper of a quote tells beside its prices: written once, and kept with the revision."""

from __future__ import annotations

import re
from collections.abc import Iterable
from typing import Any

from django.utils.html import escape

from estimating.estimate import Estimate
from jobs.documents import quote_words
from jobs.documents.for_the_customer import Told, heat_told, room_told, saving_in_words

_TITLE = re.compile(r"(<title[^>]*>).*?(</title>)", re.DOTALL)


def told_of(worked: Estimate) -> dict[str, Any]:
    """Return every sentence and figure as it is printed, of words and lists alone, so that it can be kept."""
    return {
        "opening": quote_words.opening_words(worked),
        "what_we_do": quote_words.what_we_do(worked),
        "what_we_do_not": quote_words.what_we_do_not(worked),
        "what_the_customer_does": list(quote_words.WHAT_THE_CUSTOMER_DOES),
        "what_could_change": list(quote_words.WHAT_COULD_CHANGE_THE_PRICE),
        "how_a_change_is_agreed": quote_words.HOW_A_CHANGE_IS_AGREED,
        "who_else": list(quote_words.WHO_ELSE_MUST_BE_ASKED),
        "squashed_words": quote_words.SQUASHED,
        "heat_told": _printed(heat_told(worked.checks)),
        "saving": saving_in_words(worked.checks),
        "room_told": _printed(room_told(worked.checks, worked.design.gap_above_insulation_mm)),
        "plan_in_words": quote_words.plan_in_words(worked),
        "section_in_words": quote_words.section_in_words(worked),
    }


def _printed(told: Iterable[Told]) -> list[dict[str, str]]:
    return [
        {"name": each.name, "shown": each.shown, "note": each.note, "between": each.between} for each in told
    ]


def named_drawing(drawing: str, words: str) -> str:
    """Give a drawing the words that are read aloud in its place."""
    return _TITLE.sub(lambda found: f"{found[1]}{escape(words)}{found[2]}", drawing, count=1)
