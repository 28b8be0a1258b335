"""Read drawings back, so that tests ask what is on them and not how it was written."""

from __future__ import annotations

import re
from xml.etree import ElementTree

SVG = "{http://www.w3.org/2000/svg}"


def parsed(drawing: str) -> ElementTree.Element:
    """Parse a drawing; it was made by us, so nothing in it is hostile."""
    return ElementTree.fromstring(drawing)  # noqa: S314 - our own text


def words(drawing: str) -> list[str]:
    """Return everything written on a drawing, in painting order."""
    return ["".join(each.itertext()) for each in parsed(drawing).iter(f"{SVG}text")]


def parts(drawing: str) -> list[str]:
    """Return the parts one can point at, in painting order."""
    return [part for each in parsed(drawing).iter() if (part := each.get("data-part"))]


def classes(drawing: str) -> set[str]:
    """Return every class a drawing uses."""
    return {name for each in parsed(drawing).iter() for name in (each.get("class") or "").split()}


def squares(drawing: str) -> int:
    """Count the pedestals of a plan."""
    paths = [each for each in parsed(drawing).iter(f"{SVG}path") if each.get("class") == "drawing__pedestal"]
    return sum(len(re.findall("M", path.get("d") or "")) for path in paths)


def ids(drawing: str) -> list[str]:
    """Return every id of a drawing."""
    return [each.get("id") or "" for each in parsed(drawing).iter() if each.get("id")]
