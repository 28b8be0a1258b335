"""What a customer picks: one alternative of an issued revision, and the options taken with it.

A page sends which alternative it asks about, every option that it has shown, and those of them that are
taken. An option that was never shown is as the firm offers it. So the price asked for follows from what was
sent alone, however often and in whatever order the customer changed it before.
"""

from __future__ import annotations

from dataclasses import dataclass

from django.http import QueryDict

from estimating.choices import Part
from estimating.price.price import Price
from jobs.quotes.alternatives import number_asked
from jobs.quotes.frozen import (
    FrozenOffer,
    accepted_alternative,
    frozen_alternatives,
    taken_parts,
)
from jobs.quotes.models import Revision


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """The options that a page has shown and those taken, by name; `shown` None means all there are."""

    taken: frozenset[str] = frozenset()
    shown: frozenset[str] | None = frozenset()

    def taken_of(self, offer: FrozenOffer) -> frozenset[Part]:
        """Return which options of one alternative are taken."""
        return frozenset(part for part in offer.optional_parts if self._takes(part, offer))

    def _takes(self, part: Part, offer: FrozenOffer) -> bool:
        if self.shown is None or part.value in self.shown:
            return part.value in self.taken
        return part in offer.offered_as_taken


@dataclass(frozen=True, slots=True, kw_only=True)
class Picked:
    """One alternative with the options taken; `why_not` says why they cannot be had together."""

    alternative: int
    name: str
    taken: frozenset[Part]
    price: Price
    why_not: tuple[str, ...]


class Picking:
    """The alternatives of one issued revision, and what a page asked for among them."""

    def __init__(self, revision: Revision, sent: QueryDict | None = None) -> None:
        self.revision = revision
        self.names = [str(each["name"]) for each in frozen_alternatives(revision)]
        self.offers = [FrozenOffer(revision, number) for number in range(len(self.names))]
        self.asked = _asked(sent)
        wished = number_asked(sent.get("alternative") if sent else None, of=len(self.names))
        self._accepted = accepted_alternative(revision) if revision.state == Revision.State.ACCEPTED else None
        self.alternative = wished or 0 if self._accepted is None else self._accepted

    @property
    def now(self) -> Picked:
        """What the page shows the price of."""
        return self.of(self.alternative)

    def of(self, alternative: int) -> Picked:
        """Return what picking one of the alternatives would come to, with the same wishes."""
        offer = self.offers[alternative]
        taken = self.asked.taken_of(offer)
        if alternative == self._accepted:
            taken = taken_parts(self.revision, alternative)
        return Picked(
            alternative=alternative,
            name=self.names[alternative],
            taken=taken,
            price=offer.price_with(taken),
            why_not=offer.why_not(taken),
        )

    @property
    def every(self) -> list[Picked]:
        """What each alternative would come to."""
        return [self.of(number) for number in range(len(self.offers))]

    @property
    def kept_shown(self) -> list[str]:
        """The options shown before that this alternative has not, so that the page remembers them."""
        here = {part.value for part in self.offers[self.alternative].optional_parts}
        return sorted((self.asked.shown or frozenset()) - here)

    @property
    def kept_taken(self) -> list[str]:
        """Those of them that were taken."""
        return [name for name in self.kept_shown if name in self.asked.taken]


def _asked(sent: QueryDict | None) -> Asked:
    if sent is None or "priced" not in sent:
        return Asked()
    known = {part.value for part in Part}
    taken = frozenset(sent.getlist("taken")) & known
    return Asked(taken=taken, shown=frozenset(sent.getlist("shown")) & known if "shown" in sent else None)
