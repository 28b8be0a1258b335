"""Quotes at the ends of what a firm sends: one line and sixty, long and Welsh names, many options."""

from __future__ import annotations

import copy
from collections.abc import Callable
from typing import Any

from django.contrib.auth.models import User

from jobs.firm.models import Firm
from jobs.quotes.models import Revision
from jobs.surveys.models import Survey
from tests.documents.dress import dress
from tests.jobs.offers import make_offer

LONG = "Gwynfryn Ŵyn-Llŷr ap Siôn a'i Gwmni Teuluol o Adeiladwyr Traddodiadol Llanfairpwllgwyngyll"
UNBROKEN = "Llanfairpwllgwyngyllgogerychwyrndrobwllllantysiliogogogoch"


def _lines(revision: Revision, change: Callable[[list[dict[str, Any]]], list[dict[str, Any]]]) -> None:
    price = revision.issued["estimate"]["price"]
    price["lines"] = change(copy.deepcopy(price["lines"]))
    revision.save()


def one_line(survey: Survey, by: User) -> Revision:
    revision = make_offer(survey, by)
    _lines(revision, lambda lines: [line for line in lines if line["part"] == "deck"])
    return revision


def sixty_lines(survey: Survey, by: User) -> Revision:
    revision = make_offer(survey, by)

    def sixty(lines: list[dict[str, Any]]) -> list[dict[str, Any]]:
        kept = [line for line in lines if not line["optional"]]
        return [{**kept[number % len(kept)]} for number in range(60)] + [
            line for line in lines if line["optional"]
        ]

    _lines(revision, sixty)
    return revision


def many_options(survey: Survey, by: User) -> Revision:
    revision = make_offer(survey, by)
    _lines(revision, lambda lines: lines + [line for line in lines if line["optional"]] * 14)
    return revision


def long_names(survey: Survey, by: User) -> Revision:
    """Names, an address, terms and opening words as long as the boxes take, and a word that cannot break."""
    building = survey.property
    building.customer.name = f"{LONG}, {UNBROKEN}"[:120]
    building.customer.save()
    building.address, building.town = f"{UNBROKEN} Uchaf, Rhodfa'r Dderwen Fawr", UNBROKEN
    building.save()
    firm = Firm.ours()
    firm.name, firm.registered_name = f"{LONG} Cyf"[:120], f"{LONG} Cyfyngedig"
    firm.address = "\n".join(["Uned 6", UNBROKEN, "Stad Ddiwydiannol y Traeth", "Ynys Môn", "LL61 5UJ"])
    firm.terms = "Telerau: ŵ ŷ ê î ô û ẁ ẃ ẅ ẏ. " * 120
    firm.save()
    return make_offer(survey, by, introduction="Ar gyfer eich llofft: £ ŵ ŷ ê. " * 40)


def four_alternatives(survey: Survey, by: User) -> Revision:
    """The deck in four ways, of long names, each with its options."""
    revision = make_offer(survey, by)
    first = {name: revision.issued[name] for name in ("choices", "estimate", "drawings", "told")}
    revision.issued["name"] = "The deck over the whole middle of the loft"
    revision.issued["alternatives"] = [
        {"name": name, **copy.deepcopy(first)}
        for name in ("The smaller deck, to the chimney", "With more insulation under it", UNBROKEN)
    ]
    revision.save()
    return revision


def undressed(survey: Survey, by: User) -> Revision:
    return make_offer(survey, by)


EXTREMES = {
    "one line": one_line,
    "sixty lines": sixty_lines,
    "many options": many_options,
    "long names": long_names,
    "four alternatives": four_alternatives,
    "undressed": undressed,
}


def make_extreme(name: str, survey: Survey, by: User) -> Revision:
    if name != "undressed":
        dress(Firm.ours())
    return EXTREMES[name](survey, by)
