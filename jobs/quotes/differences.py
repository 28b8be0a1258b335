"""What a revision offers otherwise than an earlier one: two frozen copies compared, in words for both sides.

What an older copy does not say is not told as a change: it may have been so and was not kept.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from typing import Any

from estimating.amounts import to_penny
from jobs.templatetags.shown import millimetres, per_cent, places, pounds, two_figures

NOT_OFFERED = "not offered"
Copy = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Difference:
    """One thing that changed: what, how it was, how it is. Words too long to repeat have no `before`."""

    subject: str
    before: str
    after: str


def differences(
    earlier: Copy, later: Copy, *, held_until: date | None = None, holds_until: date | None = None
) -> tuple[Difference, ...]:
    """Return what changed from one frozen copy to another, what matters most to a customer first."""
    found: list[Difference] = []
    before, after = _alternatives(earlier), _alternatives(later)
    if set(before) == {""} or set(after) == {""}:  # one way then or now: it is compared with the first
        before = {next(iter(after)): before.pop(next(iter(before))), **before}
    several = len(before) > 1 or len(after) > 1
    for name, now in after.items():
        then = before.get(name)
        called = f"{name}: " if several else ""
        if then is None:
            found.append(Difference(name, NOT_OFFERED, _price(now)))
        else:
            found += [
                Difference(f"{called}{each.subject}", each.before, each.after) for each in _offer(then, now)
            ]
    found += [
        Difference(name, _price(then), NOT_OFFERED) for name, then in before.items() if name not in after
    ]
    if held_until and holds_until:
        found += _told("Holds until", f"{held_until:%-d %B %Y}", f"{holds_until:%-d %B %Y}")
    found += _words(earlier, later)
    return tuple(found)


def _alternatives(copy: Copy) -> dict[str, Copy]:
    """Return the ways that are offered by their names; the one of a copy that offers no other has none."""
    others = copy.get("alternatives") or ()
    if not others:
        return {"": copy}
    return {
        each.get("name") or f"Alternative {number}": each for number, each in enumerate([copy, *others], 1)
    }


def _offer(then: Copy, now: Copy) -> Iterator[Difference]:
    """Compare one way to do the job: its price, its deck and heat, its parts, and how it is paid."""
    yield from _told("Price, everything included", _price(then), _price(now))
    yield from _figure(then, now, "Deck laid", lambda value: f"{places(value)} m²", "design", "deck_area_m2")
    yield from _told("Boards", _boards(then), _boards(now))
    yield from _told("Raised on", _at(then, "choices", "raise_with"), _at(now, "choices", "raise_with"))
    depth = ("design", "insulation", "finished_depth_mm")
    yield from _figure(then, now, "Insulation, finished depth", millimetres, *depth)
    yield from _figure(
        then, now, "U-value under the deck, W/m²K", two_figures, "checks", "heat", "as_proposed"
    )
    before, after = _parts(then), _parts(now)
    for subject in [*after, *(each for each in before if each not in after)]:
        yield from _told(subject, before.get(subject, NOT_OFFERED), after.get(subject, NOT_OFFERED))
    yield from _told("How you pay", _stages(then), _stages(now))


def _parts(offer: Copy) -> dict[str, str]:
    """Return each part and each discount with what it costs and whether it may be left."""
    price = _at(offer, "estimate", "price") or {}
    told: dict[str, str] = {}
    for line in price.get("lines", ()):
        kind = (
            ("option, taken" if line["counted"] else "option, not in the price") if line["optional"] else ""
        )
        amount = _amount(_value(line["net"]), line["vat_percent"], price)
        told[line["part"].capitalize()] = ", ".join(filter(None, [amount, kind]))
    for each in price.get("adjustments", ()):
        if each.get("origin") == "discount":
            told[each["description"]] = _amount(Decimal(each["net"]), each["vat_percent"], price)
    return told


def _amount(net: Decimal | None, vat_percent: str, price: Copy) -> str:
    """Show what a line comes to with its VAT, unless the customer accounts for that."""
    if net is None or price.get("reverse_charge"):
        return f"{pounds(net)} without VAT"
    return pounds(to_penny(net * (100 + Decimal(vat_percent)) / 100))


def _price(offer: Copy) -> str:
    return pounds(_at(offer, "estimate", "price", "totals", "gross"))


def _boards(offer: Copy) -> str:
    purchases = _at(offer, "estimate", "quantities", "purchases") or ()
    return ", ".join(sorted({each["description"] for each in purchases if each.get("role") == "board"}))


def _stages(offer: Copy) -> str:
    """Return when what share is asked; amounts follow the price and are not told twice."""
    stages = _at(offer, "estimate", "price", "stages") or ()
    return "; ".join(f"{each['when']}: {'the rest' if each['is_rest'] else _share(each)}" for each in stages)


def _share(stage: Copy) -> str:
    return per_cent(stage["percent"]) if stage.get("percent") else pounds(stage["gross"])


def _words(earlier: Copy, later: Copy) -> Iterator[Difference]:
    """Tell which words are new; they are read where they stand."""
    if earlier.get("introduction", "") != later.get("introduction", ""):
        yield Difference("Opening words", "", "These are new.")
    then, now = earlier.get("firm", {}), later.get("firm", {})
    if "terms" in then and then["terms"] != now.get("terms"):
        yield Difference("Our terms", "", "These are written anew.")
    account = ("bank_account_name", "bank_sort_code", "bank_account_number")
    if any(name in then and then[name] != now.get(name) for name in account):
        yield Difference(
            "Where to pay", "", "Another account. Ring us before you pay, to be sure it is ours."
        )
    for name, subject in (("name", "Our name"), ("address", "Our address")):
        if name in then:
            yield from _told(subject, ", ".join(then[name].splitlines()), ", ".join(now[name].splitlines()))


def _figure(then: Copy, now: Copy, subject: str, shown: Any, *path: str) -> Iterator[Difference]:
    before, after = (_value(_at(each, "estimate", *path)) for each in (then, now))
    if before is not None and after is not None:
        yield from _told(subject, shown(before), shown(after))


def _told(subject: str, before: str | None, after: str | None) -> Iterator[Difference]:
    """Tell a change of what both copies say."""
    if before and after and before != after:
        yield Difference(subject, before, after)


def _at(copy: Copy, *path: str) -> Any:
    """Return what lies at a place of a copy, or None where an older one has no such place."""
    found: Any = copy
    for name in path:
        found = found.get(name) if isinstance(found, Mapping) else None
    return found


def _value(figure: Any) -> Decimal | None:
    return Decimal(str(figure["value"])) if isinstance(figure, Mapping) and "value" in figure else None
