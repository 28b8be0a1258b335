"""Where one length ends and the next begins, or that this can be seen in two ways."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from estimating.lengths.text import HARD_GROUPS, HARD_SPACE, Part, parts_of, plain, trimmed
from estimating.lengths.units import LONGEST_IN_A_LOFT_MM
from estimating.lengths.words import either

_BARE = rf"[+-]?(?:{HARD_GROUPS}|[0-9]*\.[0-9]+|[0-9]+)"
_UNIT = '(?P<unit>mm|cm|m|in|ins|inch|inches|")'
_ALIKE = re.compile(rf"{_BARE}[ {HARD_SPACE}]*{_UNIT}(?: +{_BARE}[ {HARD_SPACE}]*(?P=unit))*")
"""One length, or several that all carry the same unit: 2.7 m 2.5 m cannot be one."""
_THOUSANDS_BY_COMMA = re.compile(r"(?<![0-9./])[1-9][0-9]?,[0-9]{3}(?![0-9])")
"""1,200 is one length to one reader and two to the next; 0,200 and 100,200 can only be two."""


def pieces_of(typed: str) -> tuple[list[str], list[str] | None]:
    """Split a list of lengths.

    Args:
        typed: What was typed. Text. [-]

    Returns:
        The pieces, and None; or nothing, and the ways to write the list that may be meant. Texts. [-]

    Source:
        Common practice, no source.
    """
    if re.search(r"[,;\n]", trimmed(typed)):
        if _THOUSANDS_BY_COMMA.search(typed):
            return [], _by_comma(typed)
        return [trimmed(piece) for piece in re.split(r"[,;\n]", typed) if trimmed(piece)], None
    text = plain(typed)
    tokens = [token for token in text.split(" ") if token]
    return (tokens, None) if len(tokens) <= 1 else _by_spaces(text, tokens)


def _by_spaces(text: str, tokens: list[str]) -> tuple[list[str], list[str] | None]:
    if all(re.fullmatch(_BARE, token) for token in tokens):
        grouped = _with_thousands(tokens)
        return (tokens, None) if grouped == tokens else ([], [", ".join(grouped), ", ".join(tokens)])
    if _ALIKE.fullmatch(text):
        return re.split(r"(?<=[a-z\"]) +", text), None
    parts = parts_of(re.sub(r"(?<![0-9+-])[+-](?=[0-9.])", "", text))
    if parts is None:
        return tokens, None  # and whoever reads them names the one that is no length
    ways = [tokens] if re.search("[+-]", text) else [list(_feet_with_inches(parts)), _written(parts), tokens]
    return [], list(dict.fromkeys(map(_with_commas, ways)))


def can_be_read_in_two_ways(typed: str, readings: Sequence[str]) -> str:
    """Say why a list is refused, and how to write it so that it has one meaning.

    Args:
        typed: What was typed. Text. [-]
        readings: The ways to write it. Texts. [-]

    Returns:
        The requirement, for a refusal. Text. [-]

    Source:
        Own definition.
    """
    hint = f"write {either(readings)}" if readings else "put commas between the lengths"
    return f'"{trimmed(typed)}" can be read in two ways: {hint}'


def _by_comma(typed: str) -> list[str]:
    """Every 1,200 as one length, and every comma as the end of one."""
    one = _THOUSANDS_BY_COMMA.sub(lambda found: found[0].replace(",", ""), typed)
    return [", ".join(map(trimmed, re.split(r"[,;\n]", each))) for each in (one, typed)]


def _with_thousands(tokens: list[str]) -> list[str]:
    """Return bare numbers with each 5 200 put together, where that is a length that a loft may have."""
    grouped: list[str] = []
    for token in tokens:
        before = grouped[-1] if grouped else ""
        size = before.lstrip("+-")
        if (
            re.fullmatch("[1-9][0-9]?", size)
            and re.fullmatch("[0-9]{3}", token)
            and int(size + token) <= LONGEST_IN_A_LOFT_MM
        ):
            grouped[-1] = before + token
        else:
            grouped.append(token)
    return grouped


def _written(parts: list[Part]) -> list[str]:
    return [part.written for part in parts]


def _feet_with_inches(parts: list[Part]) -> Iterator[str]:
    feet = ""
    for part in parts:
        if feet and part.unit in {"in", None}:
            yield f"{feet} {part.written}"
            feet = ""
            continue
        if feet:
            yield feet
        feet = part.written if part.unit == "ft" else ""
        if not feet:
            yield part.written
    if feet:
        yield feet


def _with_commas(lengths: Sequence[str]) -> str:
    """Write lengths with commas; one length alone ends with one, so that it is no list of words."""
    return ", ".join(lengths) if len(lengths) > 1 else f"{lengths[0]},"
