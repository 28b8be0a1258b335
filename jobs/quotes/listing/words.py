"""The words by which a quote is found: its property's, its customer's, and those of its number."""

from __future__ import annotations

import re

from jobs.customers.words import words_of, words_of_place
from jobs.quotes.models import Quote

_NUMBER_AND_LETTER = re.compile(r"(q?\d{4,})[a-z]{1,2}")
"""Four digits at least, as every number has: a house 14A or half a postcode is no quote."""


def words_of_quote(quote: Quote) -> set[str]:
    """Return every word by which a quote is found."""
    return words_of_place(quote.property) | _words_of_number(quote.number)


def _words_of_number(number: str) -> set[str]:
    """Return what is typed of Q-2026-0147: all of it, from the year on, the last digits, and 147."""
    parts = words_of(number)
    return {"".join(parts[start:]) for start in range(len(parts))} | {parts[-1].lstrip("0")}


def number_without_letter(term: str) -> str:
    """Return the number in what is typed as papers print it, Q-2026-0147A; nothing where there is none."""
    printed = _NUMBER_AND_LETTER.fullmatch(term)
    return printed[1] if printed else ""
