"""The words by which a quote is found."""

from __future__ import annotations

from django.db import models

from jobs.quotes.listing.words import LONGEST_WORD
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


@models.CharField.register_lookup
class BeginsWith(models.Lookup):
    """`word__begins="pem"`: a range, which is found in the index; LIKE is not, but on PostgreSQL."""

    lookup_name = "begins"
    prepare_rhs = True

    def as_sql(self, compiler, connection):  # type: ignore[no-untyped-def]
        column, column_values = self.process_lhs(compiler, connection)
        _, (beginning,) = self.process_rhs(compiler, connection)
        values = [*column_values, beginning, *column_values, f"{beginning}\U0010ffff"]
        return f"{column} >= %s AND {column} < %s", values

    def as_postgresql(self, compiler, connection):  # type: ignore[no-untyped-def]
        column, column_values = self.process_lhs(compiler, connection)
        _, (beginning,) = self.process_rhs(compiler, connection)
        return f"{column} LIKE %s", [*column_values, f"{connection.ops.prep_for_like_query(beginning)}%"]
