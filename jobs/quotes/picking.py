"""What a customer picks: one alternative of an issued revision, and the options taken with it.

A page sends which alternative it asks about, which one it was drawn for, the options taken on it, and the
wishes that it was sent with. What was changed on it becomes a wish too, and wishes go along to every other
alternative; an option that nobody touched is as the firm offers it in each. So the price that stands beside
an alternative is the price of picking it.
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

CONTRACTED = (Revision.State.ACCEPTED, Revision.State.CANCELLED)
"""The states of a revision that was accepted: what was picked then stands, also once it is called off."""


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
        self.wishes = self._wishes(sent)
        wished = number_asked(sent.get("alternative") if sent else None, of=len(self.names))
        self._accepted = accepted_alternative(revision) if revision.state in CONTRACTED else None
        self.alternative = wished or 0 if self._accepted is None else self._accepted

    @property
    def now(self) -> Picked:
        """What the page shows the price of."""
        return self.of(self.alternative)

    def of(self, alternative: int) -> Picked:
        """Return what picking one of the alternatives would come to, with the same wishes."""
        offer = self.offers[alternative]
        taken = frozenset(part for part in offer.optional_parts if self._takes(part, offer))
        if alternative == self._accepted:
            taken = taken_parts(self.revision, alternative)
        return Picked(
            alternative=alternative,
            name=self.names[alternative],
            taken=taken,
            price=offer.price_with(taken),
            why_not=offer.why_not(taken),
        )

    def _takes(self, part: Part, offer: FrozenOffer) -> bool:
        return self.wishes.get(part, part in offer.offered_as_taken)

    def _wishes(self, sent: QueryDict | None) -> dict[Part, bool]:
        """Read what the customer wants taken or left; an address that names no page means what it says."""
        if sent is None or "priced" not in sent:
            return {}
        taken = _parts(sent, "taken")
        if "drawn" not in sent:
            return {part: part in taken for offer in self.offers for part in offer.optional_parts}
        wishes = dict.fromkeys(_parts(sent, "wished"), True) | dict.fromkeys(_parts(sent, "unwished"), False)
        drawn = number_asked(sent["drawn"], of=len(self.offers))
        if drawn is None:
            return wishes
        offer = self.offers[drawn]
        changed = {
            part: part in taken
            for part in offer.optional_parts
            if (part in taken) is not wishes.get(part, part in offer.offered_as_taken)
        }
        return wishes | changed

    @property
    def query(self) -> str:
        """What an address asks with to be shown what is picked now; empty where nothing was picked."""
        if self._accepted is not None or not (self.wishes or self.alternative):
            return ""
        asked = QueryDict(mutable=True)
        asked.update({"priced": "1", "letter": self.revision.letter})
        asked["alternative"] = asked["drawn"] = str(self.alternative)
        asked.setlist("taken", sorted(self.now.taken))
        for name, wish in (("wished", True), ("unwished", False)):
            asked.setlist(name, sorted(part for part, wants in self.wishes.items() if wants is wish))
        return f"?{asked.urlencode()}"

    @property
    def every(self) -> list[Picked]:
        """What each alternative would come to."""
        return [self.of(number) for number in range(len(self.offers))]


def _parts(sent: QueryDict, name: str) -> frozenset[Part]:
    held = frozenset(sent.getlist(name))
    return frozenset(part for part in Part if part.value in held)
