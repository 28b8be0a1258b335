"""Which column of a file is which of ours: by our name, by our label, or by what the firm calls it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from jobs.price_books.import_models import ColumnMapping
from jobs.price_books.row_values import EVERY_PRODUCT, every_dimension, value_label

LONGEST_HEADING = ColumnMapping._meta.get_field("theirs").max_length
LEFT_OUT = ""
"""What a column means that the firm wants left out."""


def product_columns() -> tuple[str, ...]:
    """Return our columns in the order that they are exported."""
    return (*EVERY_PRODUCT, *every_dimension())


def header_of(name: str) -> str:
    """Return a column's heading in a file of ours: pack_cost is "pack cost"."""
    return name.replace("_", " ")


def plain_header(header: str) -> str:
    """Return a heading as headings are compared: small letters, single spaces."""
    return " ".join(header.replace("_", " ").casefold().split())


def _our_names() -> dict[str, str]:
    by_label = {plain_header(value_label(name)): name for name in product_columns()}
    return by_label | {plain_header(header_of(name)): name for name in product_columns()}


@dataclass(frozen=True, slots=True)
class Columns:
    """What each column of a file is: one of ours, left out, or (None) unknown; and all that is wrong."""

    headers: tuple[str, ...]
    ours: tuple[str | None, ...]
    remembered: tuple[str, ...]
    faults: tuple[str, ...]

    @property
    def unknown(self) -> tuple[str, ...]:
        """The headings that nobody has said the meaning of."""
        return tuple(header for header, our in zip(self.headers, self.ours, strict=True) if our is None)

    @property
    def may_be_read(self) -> bool:
        return not self.faults and not self.unknown


def remembered_columns() -> dict[str, str]:
    """Return what the firm's own headings mean, by plain heading."""
    return dict(ColumnMapping.objects.values_list("theirs", "ours"))


def find_columns(headers: tuple[str, ...], remembered: Mapping[str, str]) -> Columns:
    """Say what each column is. Our own names come first, so that what we exported is always read back."""
    names = _our_names()
    plain = [plain_header(header) for header in headers]
    ours = tuple(names.get(header, remembered.get(header)) for header in plain)
    faults = [f"Column {place} has no heading." for place, header in enumerate(plain, start=1) if not header]
    faults += [
        f"The heading of column {place} is longer than {LONGEST_HEADING} letters."
        for place, header in enumerate(plain, start=1)
        if len(header) > LONGEST_HEADING
    ]
    faults += [f"Two columns are called “{each}”." for each in sorted(_twice(plain)) if each]
    faults += [
        f"More than one column is read as {header_of(each)}: {_named(headers, ours, each)}."
        for each in sorted(_twice([our for our in ours if our]))
        if plain.count(plain_header(header_of(each))) < 2
    ]
    if "code" not in ours:
        faults.append("No column is the code: products are told apart by it.")
    by_memory = tuple(
        header
        for header, each in zip(headers, plain, strict=True)
        if each not in names and each in remembered
    )
    return Columns(headers, ours, by_memory, tuple(faults))


def _named(headers: tuple[str, ...], ours: tuple[str | None, ...], name: str) -> str:
    """Name the headings that are read as one of our columns: “Price” and “pack cost”."""
    *others, last = (f"“{header}”" for header, our in zip(headers, ours, strict=True) if our == name)
    return f"{', '.join(others)} and {last}"


def _twice(words: list[str]) -> set[str]:
    return {word for word in words if words.count(word) > 1}
