"""Which parts of a job exclude each other and which need another, and what to say of them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import StrEnum

from estimating.choices import Choices, Part
from estimating.design.openings import choose_opening, passes_through
from estimating.price_book import Ladder, PriceBook
from estimating.survey import Survey


class Bond(StrEnum):
    """What one part is to another."""

    EXCLUDES = "excludes"
    NEEDS = "needs"


@dataclass(frozen=True, slots=True, kw_only=True)
class PartRule:
    """One part against another, and the words for whoever breaks it."""

    part: Part
    bond: Bond
    other: Part
    words: str

    def broken_by(self, counted: frozenset[Part]) -> bool:
        """Tell whether these parts cannot be had together."""
        return self.part in counted and (self.other in counted) is (self.bond is Bond.EXCLUDES)


ONE_HATCH = (
    "A new hatch and sealing the old hatch do not go together, because a new hatch comes insulated and "
    "sealed: take one of them."
)


def part_rules(survey: Survey, price_book: PriceBook, choices: Choices) -> tuple[PartRule, ...]:
    """Give the rules between the parts offered.

    Args:
        survey: The hatch there is. Record. [mm]
        price_book: The hatches and ladders. Record. [mm]
        choices: The parts offered. Record. [-]

    Returns:
        The rules, none where no part minds another. Sequence. [-]

    Raises:
        Refusal: No ladder or hatch in the book serves.

    Source:
        A ladder must pass the opening: geometry; a new hatch is sealed as it is fitted: common practice, no
        source.
    """
    rules = []
    if choices.parts >= {Part.HATCH, Part.DRAUGHT_STRIP}:
        rules.append(PartRule(part=Part.DRAUGHT_STRIP, bond=Bond.EXCLUDES, other=Part.HATCH, words=ONE_HATCH))
    if choices.parts >= {Part.HATCH, Part.LADDER}:
        ladder = choose_opening(survey, price_book, choices).ladder
        if ladder and not passes_through(ladder, survey.hatch.clear_sides_mm):
            words = _too_small(survey, ladder)
            rules.append(PartRule(part=Part.LADDER, bond=Bond.NEEDS, other=Part.HATCH, words=words))
    return tuple(rules)


def _too_small(survey: Survey, ladder: Ladder) -> str:
    long, short = sorted(survey.hatch.clear_sides_mm, reverse=True)
    needed = sorted((ladder.least_opening_length_mm, ladder.least_opening_width_mm), reverse=True)
    return (
        f"The ladder needs an opening of {needed[0]} × {needed[1]} mm and the present hatch has {long} × "
        f"{short} mm: take the new hatch too, or leave the ladder."
    )


def why_not_together(rules: Iterable[PartRule], counted: frozenset[Part]) -> tuple[str, ...]:
    """Say why some parts cannot be had together.

    Args:
        rules: The rules between the parts offered. Sequence. [-]
        counted: The parts in the price, whether taken or no option. Set. [-]

    Returns:
        The words of every rule that is broken; none when they go together. Sequence. [-]

    Source:
        Own definition.
    """
    return tuple(rule.words for rule in rules if rule.broken_by(counted))


def fullest_takings(
    rules: Iterable[PartRule], fixed: frozenset[Part], options: frozenset[Part]
) -> tuple[frozenset[Part], ...]:
    """Give the options as fully as they can be taken: all of them, or without the one or the other.

    Args:
        rules: The rules between the parts offered. Sequence. [-]
        fixed: The parts that are no options. Set. [-]
        options: The parts that may be taken or left. Set. [-]

    Returns:
        Sets of options that go together, one of them the dearest. Sequence. [-]

    Source:
        Own definition.
    """
    held = list(rules)
    sets = [options]
    for rule in (rule for rule in held if rule.bond is Bond.EXCLUDES):
        sets = [
            fewer
            for taken in sets
            for fewer in (
                (taken - {rule.part}, taken - {rule.other}) if rule.broken_by(fixed | taken) else (taken,)
            )
        ]
    for rule in (rule for rule in held if rule.bond is Bond.NEEDS):
        sets = [taken - {rule.part} if rule.broken_by(fixed | taken) else taken for taken in sets]
    allowed = (taken for taken in sets if not why_not_together(held, fixed | taken))
    return tuple(dict.fromkeys(allowed))


def why_not_offered(rules: Sequence[PartRule], choices: Choices) -> tuple[str, ...]:
    """Say what is wrong with an offer before anybody chooses from it.

    What is in the price from the beginning must go together, and each option must be one that can be taken.

    Args:
        rules: The rules between the parts offered. Sequence. [-]
        choices: The parts offered. Record. [-]

    Returns:
        What is wrong, each once; none when the offer is sound. Sequence. [-]

    Source:
        Own definition.
    """
    found = [*why_not_together(rules, choices.counted_parts), *_never(rules, choices)]
    return tuple(dict.fromkeys(found))


def _never(rules: Sequence[PartRule], choices: Choices) -> Iterator[str]:
    """Options that could not be taken even with every option that they need."""
    fixed = choices.parts - choices.optional_parts
    for option in sorted(choices.optional_parts):
        with_needed = fixed | {option}
        for rule in rules:
            if rule.bond is Bond.NEEDS and rule.part in with_needed and rule.other in choices.optional_parts:
                with_needed |= {rule.other}
        for words in why_not_together(rules, with_needed):
            yield f"The option {option} could never be taken. {words}"
