"""The words by which customers and properties are found."""

from __future__ import annotations

from django.db import models

from jobs.customers.models import Customer, Property
from jobs.customers.words import LONGEST_WORD


class KnownWord(models.Model):
    """One word by which a customer or one of their properties is found, folded.

    Without a property it is a word of the customer's own; a property has its own words and, so that a name
    and a street may be typed together, its customer's.
    """

    word = models.CharField(max_length=LONGEST_WORD)
    property = models.ForeignKey(
        Property, on_delete=models.CASCADE, null=True, blank=True, related_name="words", db_index=False
    )
    customer = models.ForeignKey(Customer, on_delete=models.CASCADE, related_name="words")

    class Meta:
        indexes = (
            # Whatever language the database sorts by, PostgreSQL then compares letter by letter.
            models.Index(
                fields=("word", "property", "customer"),
                name="known_by_word",
                opclasses=("varchar_pattern_ops", "int8_ops", "int8_ops"),
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
