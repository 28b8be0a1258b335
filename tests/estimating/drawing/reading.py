"""Read drawings back, so that tests ask what is on them and not how it was written."""

from __future__ import annotations

import re
from xml.etree import ElementTree

from estimating.drawing.svg import text_width_px

CAPITALS = 0.66
"""How high figures stand, in parts of the text size."""

SVG = "{http://www.w3.org/2000/svg}"


def parsed(drawing: str) -> ElementTree.Element:
    """Parse a drawing; it was made by us, so nothing in it is hostile."""
    return ElementTree.fromstring(drawing)  # noqa: S314 - our own text


def words(drawing: str) -> list[str]:
    """Return everything written on a drawing, in painting order."""
    return ["".join(each.itertext()) for each in parsed(drawing).iter(f"{SVG}text")]


def word_boxes(drawing: str) -> list[tuple[str, float, float, float, float]]:
    """Return all that is written with the room it takes: words, left, top, right, bottom."""
    boxes = []
    for each in parsed(drawing).iter(f"{SVG}text"):
        told, kind = "".join(each.itertext()), each.get("class") or ""
        size = 10.0 if "small" in kind else 12.0
        length = text_width_px(told, size)
        turned = re.match(r"translate\(([\d.-]+) ([\d.-]+)\) rotate", each.get("transform") or "")
        if turned:
            x, y = float(turned[1]), float(turned[2])
            boxes.append((told, x - size * CAPITALS, y - length / 2, x, y + length / 2))
            continue
        x, y = float(each.get("x") or 0), float(each.get("y") or 0)
        left = x if "start" in kind or "small" in kind else x - length if "end" in kind else x - length / 2
        boxes.append((told, left, y - size * CAPITALS, left + length, y))
    return boxes


def words_on_words(drawing: str) -> list[tuple[str, str]]:
    """Return the pairs of words of which one lies on the other."""
    boxes = word_boxes(drawing)
    return [
        (one[0], other[0])
        for rank, one in enumerate(boxes)
        for other in boxes[:rank]
        if one[1] < other[3] and other[1] < one[3] and one[2] < other[4] and other[2] < one[4]
    ]


def off_the_sheet(drawing: str) -> list[str]:
    """Return the words of which some would not be seen."""
    _, _, width, height = (float(part) for part in (parsed(drawing).get("viewBox") or "").split())
    return [
        told
        for told, left, top, right, bottom in word_boxes(drawing)
        if left < 0 or top < 0 or right > width + 1 or bottom > height
    ]


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
