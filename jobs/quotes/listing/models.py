"""The words by which a quote is found."""

from __future__ import annotations

from django.db import models

from jobs.customers.words import LONGEST_WORD
from jobs.quotes.models import Quote


class QuoteWord(models.Model):
    """One word by which a quote is found, folded: whoever types its beginning finds the quote.

    A table of words because an index over it finds beginnings on every database alike, however many quotes
    there are; what is looked for in the middle of a name is not worth a second kind of index for each.
    """

    word = models.CharField(max_length=LONGEST_WORD)
    quote = models.ForeignKey(Quote, on_delete=models.CASCADE, related_name="words")

    class Meta:
        indexes = (
            # Whatever language the database sorts by, PostgreSQL then compares letter by letter.
            models.Index(
                fields=("word", "quote"), name="quotes_by_word", opclasses=("varchar_pattern_ops", "int8_ops")
            ),
        )

    def __str__(self) -> str:
        return self.word
