"""A tablet by its contract: what it shows, its outbox, and one thing sent at a time.

An item is sealed, with its number and digest, when it is first tried: until then what is typed into the same
section joins it. Nothing leaves the outbox before the office's receipt.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any
from uuid import UUID

from tests.jobs.surveys.tablet.sending import digest, envelope

Box = tuple[str, str]
"""Section and name of one answer."""
PIECE_BYTES = 400


@dataclass
class Item:
    """One thing to be sent; `sealed` once it was tried."""

    kind: str
    made_at: str
    told: dict[str, Any]
    sealed: dict[str, str] | None = None

    def boxes(self) -> Iterator[Box]:
        section = self.told.get("section", "hazards")
        yield from ((section, name) for name in self.told.get("fields", {}))


@dataclass
class Tablet:
    uuid: UUID
    session: str
    clock: str = "2026-11-18T10:00:00Z"
    form: int = 2
    shows: dict[Box, str] = field(default_factory=dict)
    outbox: list[Item] = field(default_factory=list)
    pictures: dict[str, bytes] = field(default_factory=dict)

    def type(self, box: Box, text: str) -> tuple[str, str]:
        """Write through what was typed, and return what the office is told stood there before and stands now.

        What came and went before the item was first tried is told to nobody.
        """
        section, name = box
        shown = self.shows.get(box, "")
        self.shows[box] = text
        kind = "hazards" if section == "hazards" else "answers"
        item = self._open_item(kind, section) or self._new_item(kind, section)
        before = item.told["fields"].get(name, (shown, ""))[0]
        item.told["fields"][name] = (before, text)
        return before, text

    def photograph(self, content: bytes, **words: Any) -> None:
        self.pictures[digest(content)] = content
        told = {"digest": digest(content), "hazard": "", "left_mm": None, "front_mm": None, **words}
        self.outbox.append(Item("photograph", self.clock, told))

    def complete(self) -> None:
        self.outbox.append(Item("complete", self.clock, {}))

    def seal(self, item: Item, number: int) -> dict[str, str]:
        """Give an item its number and digest, once."""
        if item.sealed is None:
            told = {**item.told, "form": self.form, "made_at": item.made_at, "number": number}
            item.sealed = envelope(item.kind, tablet=self.uuid, id=UUID(int=number), **told)
        return item.sealed

    def adopt(self, carried: dict[str, Any]) -> None:
        """Show what the office says, but in boxes whose answer is still on this tablet only."""
        unsent = {box for item in self.outbox for box in item.boxes()}
        says = {(s, name): text for s, told in carried["answers"].items() for name, text in told.items()}
        says |= {("hazards", name): text for name, text in carried["hazards"].items()}
        for box in {*says, *self.shows} - unsent:
            self.shows[box] = says.get(box, "")

    def _open_item(self, kind: str, section: str) -> Item | None:
        last = self.outbox[-1] if self.outbox else None
        if last and last.kind == kind and last.sealed is None and last.told.get("section") == section:
            return last
        return None

    def _new_item(self, kind: str, section: str) -> Item:
        item = Item(kind, self.clock, {"section": section, "fields": {}})
        self.outbox.append(item)
        return item
