"""Read a paper back: its words page by page, its tags and its fonts."""

from __future__ import annotations

import io
from collections.abc import Iterator
from dataclasses import dataclass

from pypdf import PageObject, PdfReader
from pypdf.generic import DictionaryObject


def read(pdf: bytes) -> PdfReader:
    return PdfReader(io.BytesIO(pdf))


def pages(pdf: bytes) -> list[str]:
    """Return the words of each page, with every run of white space as one space."""
    return [" ".join(page.extract_text().split()) for page in read(pdf).pages]


def roles(pdf: bytes) -> set[str]:
    """Return the kinds of elements in a paper's tree of tags."""
    found: set[str] = set()
    waiting = [read(pdf).trailer["/Root"]["/StructTreeRoot"]]
    while waiting:
        element = waiting.pop()
        if not hasattr(element, "get"):
            continue
        found.add(str(element.get("/S", "")))
        kids = element.get("/K", [])
        waiting += [kid.get_object() for kid in (kids if isinstance(kids, list) else [kids])]
    return found


def fonts(pdf: bytes) -> dict[str, bool]:
    """Return each font by name, and whether the paper carries it."""
    found = {}
    for page in read(pdf).pages:
        for font in page["/Resources"].get("/Font", {}).values():
            inner = font.get_object()["/DescendantFonts"][0].get_object()
            descriptor = inner["/FontDescriptor"].get_object()
            carried = any(name in descriptor for name in ("/FontFile", "/FontFile2", "/FontFile3"))
            found[str(inner["/BaseFont"])] = carried
    return found


@dataclass(frozen=True, slots=True)
class Tag:
    """One element of a paper's tree of tags, in reading order."""

    role: str
    element: DictionaryObject

    @property
    def alternative(self) -> str:
        return str(self.element.get("/Alt", ""))

    @property
    def headers(self) -> list[str]:
        """The identifiers of the cells that head a cell."""
        about = self.element.get("/A", {}).get_object()
        return [str(each) for each in about.get("/Headers", [])]


def tags(pdf: bytes) -> Iterator[Tag]:
    """Return every element of the tree of tags, as a screen reader meets them."""
    yield from _below(read(pdf).trailer["/Root"]["/StructTreeRoot"])


def _below(element: DictionaryObject) -> Iterator[Tag]:
    kids = element.get("/K", [])
    for kid in kids if isinstance(kids, list) else [kids]:
        child = kid.get_object()
        if isinstance(child, DictionaryObject) and "/S" in child:
            yield Tag(str(child["/S"]), child)
            yield from _below(child)


@dataclass(frozen=True, slots=True)
class Piece:
    """A run of words on a page: how far down the sheet, from 0 at its top to 1, and in what size."""

    words: str
    down: float
    size_pt: float


HEAD, FOOT = 0.06, 0.865
"""Shares of an upright sheet's height over and under which only running heads and the title block stand."""


def body(page: PageObject) -> list[Piece]:
    """Return what stands between head and foot of an upright page, from top to bottom."""
    found: list[Piece] = []
    height = float(page.mediabox.height)

    def note(words: str, sheet: list[float], text: list[float], _font: object, size: float) -> None:
        if words.strip():
            up = text[4] * sheet[1] + text[5] * sheet[3] + sheet[5]
            found.append(Piece(words.strip(), 1 - up / height, abs(size * text[3] * sheet[3])))

    page.extract_text(visitor_text=note)
    return sorted((each for each in found if HEAD < each.down < FOOT), key=lambda each: each.down)
