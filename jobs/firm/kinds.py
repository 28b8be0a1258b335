"""What kind of firm it is, and what the law wants said of each kind on its letters, quotes and orders.

Companies and limited liability partnerships: the Company, Limited Liability Partnership and Business (Names
and Trading Disclosures) Regulations 2015 (SI 2015/17), regulations 24 and 25. Sole traders and partnerships
under a business name: Companies Act 2006, sections 1200 to 1202. Read in part, else from memory: a firm
confirms with its adviser.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Protocol

from django.db import models


class FirmKind(models.TextChoices):
    COMPANY = "limited company", "Limited company"
    LLP = "limited liability partnership", "Limited liability partnership"
    SOLE_TRADER = "sole trader", "Sole trader"
    PARTNERSHIP = "partnership", "Partnership"


class RegisteredIn(models.TextChoices):
    """The parts of the United Kingdom in which a company can be registered."""

    ENGLAND_AND_WALES = "England and Wales", "England and Wales"
    WALES = "Wales", "Wales"
    SCOTLAND = "Scotland", "Scotland"
    NORTHERN_IRELAND = "Northern Ireland", "Northern Ireland"


REGISTERED = frozenset({FirmKind.COMPANY, FirmKind.LLP})
"""Kinds that stand in a register and say so."""

COMPANY_NUMBER = re.compile(r"[0-9]{8}|[A-Z]{2}[0-9]{6}|R[0-9]{7}")
"""Eight characters; letters first outside England and Wales and for partnerships. From memory."""


class Particulars(Protocol):
    """What a firm says of itself."""

    name: str
    kind: str
    address: str
    registered_name: str
    registered_in: str
    company_number: str
    registered_office: str
    owners: str
    service_address: str


def legal_words(firm: Particulars) -> list[str]:
    """Say who the firm is in law, in the sentences that stand at the foot of its letterhead."""
    if firm.kind in REGISTERED:
        return list(_registered(firm))
    if firm.kind:
        return list(_unregistered(firm))
    return [f"Company number {firm.company_number}."] if firm.company_number else []


def missing_particulars(firm: Particulars) -> list[str]:
    """Return what the law wants on a quote and the firm has not said, each in its label's words."""
    if not firm.kind:
        return ["kind of firm"]
    if firm.kind in REGISTERED:
        wanted = {"company number": firm.company_number, "registered in": firm.registered_in}
    elif firm.kind == FirmKind.SOLE_TRADER:
        wanted = {"owner's name": firm.owners}
    else:
        wanted = {"partners' names": firm.owners}
    return [label for label, said in wanted.items() if not said.strip()]


def _registered(firm: Particulars) -> Iterator[str]:
    name = firm.registered_name or firm.name
    if name != firm.name:
        yield f"{firm.name} is a business name of {name}."
    where = f" in {firm.registered_in}" if firm.registered_in else ""
    number = f", number {firm.company_number}" if firm.company_number else ""
    kind = "" if firm.kind == FirmKind.COMPANY else " as a limited liability partnership"
    if where or number:
        yield f"{name} is registered{where}{kind}{number}."
    yield f"Registered office: {on_one_line(firm.registered_office or firm.address)}."


def _unregistered(firm: Particulars) -> Iterator[str]:
    names = [name.strip() for name in firm.owners.splitlines() if name.strip()]
    if names and firm.kind == FirmKind.SOLE_TRADER:
        if names != [firm.name]:
            yield f"{firm.name} is a business name of {_listed(names)}."
    elif names:
        yield f"{firm.name} is a partnership of {_listed(names)}."
    yield f"Address for service of documents: {on_one_line(firm.service_address or firm.address)}."


def on_one_line(address: str) -> str:
    """Write an address typed on several lines as one."""
    return ", ".join(line.strip().rstrip(",") for line in address.splitlines() if line.strip())


def _listed(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
