"""Form fields for what is neither one length nor a shape: spans, openings for air, areas, cuts in joists."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from estimating.lengths import read_length_mm, read_lengths_mm, read_spans_mm
from estimating.lengths.text import HARD_SPACE, plain
from estimating.refusals import Ambiguous, Refusal
from estimating.survey import Cable, CutKind
from jobs.surveys.typed.lengths import LengthsField, TypedField, in_words

WIDEST_GAP_MM = 100
_SPACES = f"[ {HARD_SPACE}]*"
_PER_METRE = re.compile(
    rf"([0-9,. {HARD_SPACE}]*[0-9]){_SPACES}mm(?:2|²){_SPACES}(?:/|per|a)?{_SPACES}m(?:etre)?"
)
_NUMBER = re.compile(r"[0-9]{1,9}(?:\.[0-9]{1,6})?|\.[0-9]{1,6}")
_CUT = re.compile(r"(?:joist\s*)?([0-9]{1,4})[\s,:]+(notch|hole|cut(?: through)?)[\s,:]*(.*)")

_CABLE = re.compile(
    r"([0-9]{1,4}(?:\.[0-9]{1,4})?)\s*(?:mm(?:2|²))?[\s,]+([0-9]{1,4}(?:\.[0-9]{1,4})?)\s*[aA]?[\s,]+(\d+(?:\.\d+)?\s*(?:mm|cm|m)?)(?:[\s,]+(.*))?"
)


class SpansField(LengthsField):
    """The clear spans of a joist in order, cleaned to whole millimetres; most joists have one."""

    reads = "spans"

    def read(self, text: str) -> tuple[int, ...]:
        return read_spans_mm(text, **self.how())

    def say(self, read: tuple[int, ...]) -> str:
        return in_words(read[0]) if len(read) == 1 else super().say(read)


class OpeningField(TypedField):
    """Free opening for air, cleaned to mm² a metre: a gap of 10 mm all along is 10 000."""

    reads = "opening"

    def read_bare_numbers_in(self, unit: str) -> None:
        super().read_bare_numbers_in(unit)
        self.unit = f"{self.default_unit} of gap" if self.default_unit else "write the unit"

    def read(self, text: str) -> int:
        if by_area := _PER_METRE.fullmatch(plain(text)):
            return int(_number(re.sub(rf"[, {HARD_SPACE}]", "", by_area[1]), text))
        try:
            gap_mm = read_length_mm(text, **self.how())
        except Ambiguous as asks:
            gaps = tuple(way for way in asks.readings if read_length_mm(way) <= WIDEST_GAP_MM)
            raise Ambiguous(str(self.label), asks.requirement, gaps) from None
        if gap_mm > WIDEST_GAP_MM:
            raise Refusal(
                str(self.label),
                f"must be a gap of at most {WIDEST_GAP_MM} mm, or written as mm²/m, such as 10000 mm²/m",
            )
        return gap_mm * 1000

    def say(self, read: int) -> str:
        return f"{read:,} mm² a metre".replace(",", HARD_SPACE)


class AreasField(TypedField):
    """Several areas, cleaned to a tuple of square metres."""

    unit = "m²"

    def read(self, text: str) -> tuple[Decimal, ...]:
        plain = re.sub(r"\s*m(?:2|²)", " ", text)
        return tuple(_number(piece, piece) for piece in re.split(r"[,;\s]+", plain) if piece)

    def say(self, read: tuple[Decimal, ...]) -> str:
        return f"{len(read)} areas, {sum(read)} m² together"


@dataclass(frozen=True, slots=True)
class CutSeen:
    """A cut as typed; `depth_mm` is None where a joist is cut through and nobody measured how deep."""

    joist: int
    kind: CutKind
    depth_mm: int | None
    from_support_mm: int

    def __str__(self) -> str:
        size = {
            CutKind.NOTCH: f" {self.depth_mm} mm deep",
            CutKind.HOLE: f" of {self.depth_mm} mm",
            CutKind.CUT_THROUGH: "",
        }
        where = f"{in_words(self.from_support_mm)} from the support"
        return f"joist {self.joist}, {self.kind}{size[self.kind]}, {where}"


class CutsField(TypedField):
    """Notches, holes and cuts, one on a line: joist, what, depth or diameter, distance from the support."""

    def read(self, text: str) -> tuple[CutSeen, ...]:
        return tuple(self._read_cut(line.strip()) for line in re.split(r"[;\n]", text) if line.strip())

    def _read_cut(self, line: str) -> CutSeen:
        found = _CUT.fullmatch(line.lower())
        kind = CutKind.CUT_THROUGH if found and found[2].startswith("cut") else None
        kind = kind or (CutKind(found[2]) if found else None)
        sizes_mm = self._sizes_mm(line, found[3], both=kind is not CutKind.CUT_THROUGH) if found else ()
        least = 1 if kind is CutKind.CUT_THROUGH else 2
        if not found or not kind or not least <= len(sizes_mm) <= 2:
            raise Refusal(
                str(self.label),
                f'"{line}" is not one cut: write the joist\'s number, notch, hole or cut, its depth or '
                'diameter, and how far from the support, such as "3 notch 20, 600"',
            )
        *depth, from_support_mm = sizes_mm
        return CutSeen(int(found[1]), kind, depth[0] if depth else None, from_support_mm)

    def _sizes_mm(self, line: str, typed: str, *, both: bool) -> tuple[int, ...]:
        if both:  # then 20,600 can only be two sizes, however it is spaced
            typed = re.sub(r"^([0-9]+)[\s,]+([0-9]+)$", r"\1, \2", typed.strip())
        return _within(line, lambda: read_lengths_mm(typed, **self.how())) if typed.strip() else ()

    def say(self, read: tuple[CutSeen, ...]) -> str:
        return "; ".join(map(str, read))


class CablesField(TypedField):
    """Cables that insulation would cover, one on a line: size, fuse or breaker, length, and which circuit."""

    def read(self, text: str) -> tuple[Cable, ...]:
        return tuple(self._read_cable(line.strip()) for line in re.split(r"[;\n]", text) if line.strip())

    def _read_cable(self, line: str) -> Cable:
        found = _CABLE.fullmatch(line)
        if not found:
            raise Refusal(
                str(self.label),
                f'"{line}" is not one cable: write its size in mm², the fuse or breaker in A and the length '
                'that would be covered, such as "2.5, 20 A, 400 mm cooker"',
            )
        size, device, length, circuit = found.groups()
        return Cable(
            size_mm2=Decimal(size),
            device_a=Decimal(device),
            covered_mm=_within(line, lambda: read_length_mm(length, **self.how())),
            circuit=(circuit or "").strip(),
        )

    def say(self, read: tuple[Cable, ...]) -> str:
        return "; ".join(
            f"{each.size_mm2} mm², {each.device_a} A, {in_words(each.covered_mm)} covered"
            + (f", {each.circuit}" if each.circuit else "")
            for each in read
        )


def _within(line: str, read: Callable[[], Any]) -> Any:
    """Read lengths that are part of an answer: how else to write them is told, but is no whole answer."""
    try:
        return read()
    except Ambiguous as asks:
        raise Refusal(asks.field, f'in "{line}", {asks.requirement}') from None


def _number(text: str, typed: str) -> Decimal:
    if not _NUMBER.fullmatch(text):
        raise Refusal("number", f'"{typed}" is not a number')
    return Decimal(text)
