"""Read a paper back: its words page by page, its tags and its fonts."""

from __future__ import annotations

import io

from pypdf import PdfReader


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
