"""A book of very many quotes, drawn from a seed and written in bulk.

The frozen copies of the revisions are left empty: a hundred thousand of them would fill twelve gigabytes, and
the list never opens them.
"""

from __future__ import annotations

import random
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from decimal import Decimal

from django.contrib.auth.models import User
from django.db import connection, transaction
from django.utils import timezone

from jobs.customers.models import Customer, Property
from jobs.customers.word_models import KnownWord
from jobs.customers.words import words_of_customer, words_of_place
from jobs.price_books.models import Edition
from jobs.quotes.customer.models import REASONS, Decision
from jobs.quotes.listing.models import QuoteWord
from jobs.quotes.listing.turns import Facts, standing
from jobs.quotes.listing.words import words_of_quote
from jobs.quotes.models import Quote, Revision
from jobs.surveys.models import Survey
from tests.benchmarks.many_jobs import write_enquiries, write_jobs

AT_ONCE = 5000
YEARS = 10
RECENT = 50  # of so many quotes the last is still open, more or less
FIRST = [
    "Ada", "Bram", "Cerys", "Dilys", "Edmund", "Fflur", "Gethin", "Hester", "Ines", "Jonah", "Keir", "Llŷr",
    "Mabel", "Nia", "Osian", "Petra", "Quentin", "Rhys", "Søren", "Tamsin", "Una", "Verity", "Wilf", "Zora",
]  # fmt: skip
LAST_BEGINS = ["Ash", "Birch", "Cole", "Dray", "Elm", "Fern", "Gorse", "Hawk", "Kel", "Marl", "Pem", "Wex"]
LAST_ENDS = ["bury", "by", "combe", "dale", "den", "ford", "ham", "hurst", "ley", "more", "ton", "well"]
STREETS = ["Acre", "Beacon", "Chapel", "Dene", "Forge", "Grange", "Harbour", "Larkfield", "Mill", "Orchard"]
WAYS = ["Avenue", "Close", "Hill", "Lane", "Rise", "Road", "Row", "Street", "Terrace", "Way"]
TOWNS = ["Wexcombe", "Ambleford", "Kelmore", "Sandhythe", "Northwold", "Pemberley"]
LETTERS = "ABDEFGHJLNPQRSTUWXYZ"
SETTLED, WEIGHTS = ("accepted", "lapsed", "declined", "withdrawn"), (38, 34, 22, 6)
DAY = timedelta(days=1)


def fill(count: int, by: User) -> None:
    """Write so many quotes with all that is found and listed of them, and let the database count its rows."""
    edition = Edition.objects.create(name="Of many quotes", dated="2020-01-01", hourly_cost=20)
    book = _Book(random.Random(count), count, edition, by, timezone.now())
    for first in range(0, count, AT_ONCE):
        with transaction.atomic():
            book.write(range(first, min(first + AT_ONCE, count)))
    with connection.cursor() as cursor:
        cursor.execute("VACUUM ANALYZE" if connection.vendor == "postgresql" else "ANALYZE")


@dataclass(frozen=True, slots=True)
class _Book:
    chance: random.Random
    count: int
    edition: Edition
    by: User
    now: datetime

    def write(self, numbers: range) -> None:
        customers = Customer.objects.bulk_create(self._customer(number) for number in numbers)
        places = Property.objects.bulk_create(self._place(customer) for customer in customers)
        surveys = Survey.objects.bulk_create(
            self._survey(number, place) for number, place in zip(numbers, places, strict=True)
        )
        write_enquiries(surveys, self.by)
        quotes = Quote.objects.bulk_create(map(self._quote, numbers, surveys))
        revisions = Revision.objects.bulk_create(map(self._revision, numbers, quotes))
        decided = (each for each in revisions if each.state in ("accepted", "declined"))
        decisions = Decision.objects.bulk_create(self._decision(revision) for revision in decided)
        write_jobs((each for each in decisions if each.kind == Decision.Kind.ACCEPTED), now=self.now)
        _write_words(
            QuoteWord, ((word, quote.pk) for quote in quotes for word in sorted(words_of_quote(quote)))
        )
        _write_words(KnownWord, (row for place in places for row in _known_by(place)))

    def _at(self, number: int) -> datetime:
        return self.now - 365 * YEARS * DAY * (1 - number / self.count)

    def _customer(self, number: int) -> Customer:
        chance = self.chance
        name = f"{chance.choice(FIRST)} {chance.choice(LAST_BEGINS)}{chance.choice(LAST_ENDS)}"
        return Customer(name=name, phone=f"+4416149{number % 100_000:05}")

    def _place(self, customer: Customer) -> Property:
        chance = self.chance
        inward = f"{chance.randint(1, 9)}{chance.choice(LETTERS)}{chance.choice(LETTERS)}"
        return Property(
            customer=customer,
            address=f"{chance.randint(1, 199)} {chance.choice(STREETS)} {chance.choice(WAYS)}",
            town=chance.choice(TOWNS),
            postcode=f"WX{chance.randint(1, 29)} {inward}",
        )

    def _survey(self, number: int, place: Property) -> Survey:
        return Survey(
            number=f"S-{number:06}", property=place, surveyor=self.by, visited_on=self._at(number),
            state=Survey.State.COMPLETE,
        )  # fmt: skip

    def _quote(self, number: int, survey: Survey) -> Quote:
        """Return a quote as its services leave it: what is old is settled, what is new is open."""
        chance, at = self.chance, self._at(number)
        is_recent = self.count - number <= self.count // RECENT
        state = chance.choice(["draft", "issued", "issued", "accepted"] if is_recent else ["settled"])
        if state == "settled":
            state = chance.choices(SETTLED, WEIGHTS)[0]
        is_issued = state != "draft"
        follow_up_at = at + 100 * DAY if is_recent and number % 3 == 0 else None
        found = standing(
            Facts(
                begun_at=None if is_issued else at,
                offered_at=at if is_issued else None,
                settled_at=at + 9 * DAY if state not in ("draft", "issued") else None,
                asked_at=at + 2 * DAY if state == "issued" and number % 5 == 0 else None,
                to_book_since=at + 9 * DAY if state == "accepted" and is_recent else None,
                job_is_booked=state == "accepted" and not is_recent,
                follow_up_at=follow_up_at,
            ),
            made_at=at,
        )
        return Quote(
            number=f"Q-{at.year}-{number:06}", property=survey.property, survey=survey, made_by=self.by,
            letter="A", state=state, total=Decimal(chance.randint(900, 9000)) if is_issued else None,
            valid_until=at + 30 * DAY if is_issued else None, turn=found.turn.value, turn_since=found.since,
            turn_because=found.because.value, office_from=found.office_from, follow_up_on=follow_up_at,
        )  # fmt: skip

    def _revision(self, number: int, quote: Quote) -> Revision:
        is_issued = quote.state != "draft"
        return Revision(
            quote=quote, letter="A", state=quote.state, edition=self.edition, made_by=self.by,
            total=quote.total, paper_sha256="0" * 64 if is_issued else "", valid_until=quote.valid_until,
            issued_at=self._at(number) if is_issued else None,
        )  # fmt: skip

    def _decision(self, revision: Revision) -> Decision:
        reasons = [*dict(REASONS), ""] if revision.state == "declined" else [""]
        return Decision(
            revision=revision, kind=revision.state, name_typed="A customer", total=revision.total,
            paper_sha256="0" * 64, decided_at=revision.issued_at + 9 * DAY,
            because=self.chance.choice(reasons),
        )  # fmt: skip


def _known_by(place: Property) -> Iterator[tuple[str, int | None, int]]:
    """Yield the words of a property and of its customer, who has no other."""
    customer = place.customer
    yield from ((word, None, customer.pk) for word in sorted(words_of_customer(customer)))
    yield from ((word, place.pk, customer.pk) for word in sorted(words_of_place(place)))


def _write_words(model: type[KnownWord] | type[QuoteWord], rows: Iterable[tuple[object, ...]]) -> None:
    """Write a million words without making a record of each, which alone would take a minute."""
    table = model._meta.db_table
    columns = [field.column for field in model._meta.fields if not field.primary_key]
    names, marks = ", ".join(columns), ", ".join("%s" for _ in columns)
    with connection.cursor() as cursor:
        if connection.vendor == "postgresql":
            with cursor.copy(f"COPY {table} ({names}) FROM STDIN") as copy:
                for row in rows:
                    copy.write_row(row)
        else:
            cursor.executemany(f"INSERT INTO {table} ({names}) VALUES ({marks})", rows)  # noqa: S608
