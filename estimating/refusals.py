"""The core's "no": which field cannot be so, and what it must be."""

from __future__ import annotations

from collections.abc import Iterable


class Refusal(ValueError):
    """Say that one input cannot be so.

    `field` is the dotted path of the input ("joist_fields[0].depth_mm"); `requirement` completes the
    sentence "<field> ..." in plain words ("must be more than 0 mm").
    """

    def __init__(self, field: str, requirement: str) -> None:
        super().__init__(f"{field}: {requirement}")
        self.field = field
        self.requirement = requirement

    @property
    def each(self) -> tuple[Refusal, ...]:
        """Every single refusal, so that one and many are reported alike."""
        return (self,)


class Ambiguous(Refusal):
    """Say that an input could be several things; `readings` are the ways to write it that have one meaning.

    Only plausible ones are offered, so there may be none.
    """

    def __init__(self, field: str, requirement: str, readings: tuple[str, ...] = ()) -> None:
        super().__init__(field, requirement)
        self.readings = readings


class Refusals(Refusal):
    """Say several inputs cannot be so, all at once, so that nobody mends them one by one."""

    def __init__(self, refusals: Iterable[Refusal]) -> None:
        self._each = tuple(each for refusal in refusals for each in refusal.each)
        first = self._each[0]
        super().__init__(first.field, first.requirement)
        self.args = ("; ".join(str(refusal) for refusal in self._each),)

    @property
    def each(self) -> tuple[Refusal, ...]:
        return self._each


class Requirements:
    """Collect refusals while a record is read, then raise them together."""

    def __init__(self, path: str = "") -> None:
        self._path = path
        self._refusals: list[Refusal] = []

    def require(self, claim: bool, field: str, requirement: str) -> bool:
        """Note a refusal unless the claim holds; return the claim so that later checks may depend on it."""
        if not claim:
            self._refusals.append(Refusal(f"{self._path}{field}", requirement))
        return claim

    def note(self, refusal: Refusal) -> None:
        """Keep the refusals of an inner record."""
        self._refusals.extend(refusal.each)

    def settle(self) -> None:
        """Raise what was collected, if anything was."""
        if len(self._refusals) == 1:
            raise self._refusals[0]
        if self._refusals:
            raise Refusals(self._refusals)
