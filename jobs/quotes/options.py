"""What each option of an issued revision adds, VAT and rounding included, and which of them go together."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal

from estimating.choices import Part
from estimating.price.price import PriceLine
from estimating.price.taking import Bond
from jobs.quotes.frozen import FrozenOffer
from jobs.quotes.models import Revision


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """A line that may be taken or left, by how much the total moves with it, and what it goes with."""

    line: PriceLine
    taken: bool
    adds: Decimal
    needs: tuple[Part, ...] = ()
    excludes: tuple[Part, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class OptionGroup:
    """Options that are chosen apart, or one of several at most."""

    options: tuple[Option, ...]

    @property
    def is_one_of(self) -> bool:
        """Whether only one of them can be taken."""
        return len(self.options) > 1

    @property
    def none_taken(self) -> bool:
        return not any(option.taken for option in self.options)


def options_of(
    revision: Revision, taken: frozenset[Part], alternative: int | None = None
) -> tuple[Option, ...]:
    """Return every option with what it adds to the rest of what is taken."""
    return options_in(FrozenOffer(revision, alternative), taken)


def options_in(frozen: FrozenOffer, taken: frozenset[Part]) -> tuple[Option, ...]:
    """Return the options of one alternative; of those that exclude each other each is weighed by itself."""

    def total(parts: frozenset[Part]) -> Decimal:
        return frozen.price_with(parts).totals.gross

    def option(line: PriceLine) -> Option:
        excludes = _bound(frozen, line.part, Bond.EXCLUDES)
        others = taken - {line.part, *excludes}
        return Option(
            line=line,
            taken=line.part in taken,
            adds=total(others | {line.part}) - total(others),
            needs=_bound(frozen, line.part, Bond.NEEDS),
            excludes=excludes,
        )

    return tuple(option(line) for line in frozen.price_with(taken).lines if line.optional)


def _bound(frozen: FrozenOffer, part: Part, bond: Bond) -> tuple[Part, ...]:
    """The other options that a part needs or, either way round, excludes."""
    rules = [rule for rule in frozen.part_rules if rule.bond is bond]
    found = [rule.other for rule in rules if rule.part is part]
    if bond is Bond.EXCLUDES:
        found += [rule.part for rule in rules if rule.other is part]
    return tuple(each for each in found if each in frozen.optional_parts)


def in_groups(options: Iterable[Option]) -> tuple[OptionGroup, ...]:
    """Put options that exclude each other beside each other, so that a page can ask for one of them."""
    left, groups = list(options), []
    while left:
        first = left.pop(0)
        together = [first, *(each for each in left if each.line.part in first.excludes)]
        left = [each for each in left if each not in together]
        groups.append(OptionGroup(options=tuple(together)))
    return tuple(groups)
