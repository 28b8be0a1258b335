"""The words by which a quote is found: its property's, its customer's, and those of its number."""

from __future__ import annotations

from jobs.customers.words import words_of, words_of_place
from jobs.quotes.models import Quote


def words_of_quote(quote: Quote) -> set[str]:
    """Return every word by which a quote is found."""
    return words_of_place(quote.property) | _words_of_number(quote.number)


def _words_of_number(number: str) -> set[str]:
    """Return what is typed of Q-2026-0147: all of it, from the year on, the last digits, and 147."""
    parts = words_of(number)
    return {"".join(parts[start:]) for start in range(len(parts))} | {parts[-1].lstrip("0")}
