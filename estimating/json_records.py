"""Frozen records to JSON-ready values and back, by their own type hints.

Reading goes through everything and refuses all that is wrong at once, by dotted path. Money and other
decimals travel as text, so that no digit is lost; whole numbers, truths and lists as they are.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import MISSING, Field, fields, is_dataclass
from datetime import date
from decimal import Decimal
from difflib import get_close_matches
from enum import Enum
from functools import cache
from types import NoneType, UnionType
from typing import Any, Literal, TypeVar, Union, get_args, get_origin, get_type_hints

from estimating.refusals import Refusal, Requirements

Json = dict[str, Any] | list[Any] | str | int | float | bool | None
_NUMBER = re.compile(r"-?\d+(\.\d+)?")
_UNREADABLE = object()


def as_json(value: object) -> Json:  # noqa: PLR0911 - one line for each kind of value
    """Write a record, or anything it holds, as values that json.dumps takes.

    Args:
        value: The record. Record. [-]

    Returns:
        The JSON-ready value. Mapping. [-]

    Source:
        Own definition of the format.
    """
    if is_dataclass(value) and not isinstance(value, type):
        return {each.name: as_json(getattr(value, each.name)) for each in fields(value)}
    if isinstance(value, tuple) and hasattr(value, "_asdict"):
        return {name: as_json(each) for name, each in value._asdict().items()}
    if isinstance(value, Enum):
        return str(value.value)
    if isinstance(value, Decimal):
        return format(value, "f")
    if isinstance(value, date):
        return value.isoformat()
    if isinstance(value, frozenset):
        return sorted((as_json(each) for each in value), key=str)
    if isinstance(value, tuple | list):
        return [as_json(each) for each in value]
    if value is None or isinstance(value, str | bool | int | float):
        return value
    raise TypeError(f"{type(value).__name__} has no JSON form")


def read_record(record: type[Record], given: object) -> Record:
    """Read a record from JSON values, or refuse everything that is wrong with them.

    Args:
        record: The class to read. Class. [-]
        given: The parsed JSON. Mapping. [-]

    Returns:
        The record. Record. [-]

    Raises:
        Refusal: Fields are missing, unknown, of the wrong kind, or cannot be so: all at once.

    Source:
        Own definition of the format.
    """
    reader = _Reader()
    found = reader.read(record, given, "")
    reader.needs.settle()
    assert isinstance(found, record)  # noqa: S101 - settled above
    return found


Record = TypeVar("Record")


@cache
def hints_of(record: type) -> dict[str, Any]:
    """Return the resolved type hints of a record class, once for each class.

    Args:
        record: The class. Class. [-]

    Returns:
        A hint for each field. Mapping. [-]

    Source:
        Own definition.
    """
    return get_type_hints(record)


class _Reader:
    """Reads values by type hint and keeps every refusal on the way."""

    def __init__(self) -> None:
        self.needs = Requirements()

    def read(self, hint: Any, given: object, path: str) -> Any:  # noqa: PLR0911 - one for each kind of hint
        origin, arguments = get_origin(hint), get_args(hint)
        if origin in (Union, UnionType):
            return self._one_of(arguments, given, path)
        if origin is Literal:
            return self._literal(arguments, given, path)
        if origin is tuple:
            return self._tuple(arguments, given, path)
        if origin is frozenset:
            return self._frozenset(arguments[0], given, path)
        kind = origin or hint
        if isinstance(kind, TypeVar):
            return self._number(given, path)
        if is_dataclass(kind) or hasattr(kind, "_fields"):
            return self._record(kind, given, path)
        return self._plain(kind, given, path)

    def _refuse(self, path: str, requirement: str) -> object:
        self.needs.require(False, path, requirement)
        return _UNREADABLE

    def _plain(self, kind: type, given: object, path: str) -> Any:
        if isinstance(kind, type) and issubclass(kind, Enum):
            return self._enum(kind, given, path)
        if kind is Decimal:
            return self._decimal(given, path)
        if kind is date:
            return self._date(given, path)
        fits = isinstance(given, kind) and (kind is bool or not isinstance(given, bool))
        if kind is float and isinstance(given, int) and not isinstance(given, bool):
            return float(given)
        words = {str: "text", int: "a whole number", bool: "true or false", float: "a number"}
        return given if fits else self._refuse(path, f"must be {words[kind]}")

    def _enum(self, kind: type[Enum], given: object, path: str) -> Any:
        try:
            return kind(given)
        except ValueError:
            return self._refuse(path, f"must be one of: {', '.join(str(each.value) for each in kind)}")

    def _literal(self, allowed: tuple[Any, ...], given: object, path: str) -> Any:
        found = [each for each in allowed if plain_value(each) == given]
        words = ", ".join(str(plain_value(each)) for each in allowed)
        return found[0] if found else self._refuse(path, f"must be one of: {words}")

    def _decimal(self, given: object, path: str) -> Any:
        text = str(given) if isinstance(given, str | int | float) and not isinstance(given, bool) else ""
        if _NUMBER.fullmatch(text):
            return Decimal(text)
        return self._refuse(path, "must be a number")

    def _date(self, given: object, path: str) -> Any:
        try:
            return date.fromisoformat(given if isinstance(given, str) else "")
        except ValueError:
            return self._refuse(path, "must be a date like 2026-11-25")

    def _number(self, given: object, path: str) -> Any:
        """A figure's value: text is a decimal, everything else as it is."""
        if isinstance(given, str):
            return self._decimal(given, path)
        fits = isinstance(given, int | float) and not isinstance(given, bool)
        return given if fits else self._refuse(path, "must be a number")

    def _tuple(self, arguments: tuple[Any, ...], given: object, path: str) -> Any:
        if not isinstance(given, list):
            return self._refuse(path, "must be a list")
        if arguments[-1] is not Ellipsis:
            if len(given) != len(arguments):
                return self._refuse(path, f"must hold {len(arguments)} values")
            each_hint = arguments
        else:
            each_hint = arguments[:1] * len(given)
        pairs = zip(each_hint, given, strict=True)
        found = tuple(self.read(hint, each, f"{path}[{place}]") for place, (hint, each) in enumerate(pairs))
        return _UNREADABLE if _UNREADABLE in found else found

    def _frozenset(self, hint: Any, given: object, path: str) -> Any:
        found = self._tuple((hint, Ellipsis), given, path)
        return found if found is _UNREADABLE else frozenset(found)

    def _one_of(self, hints: tuple[Any, ...], given: object, path: str) -> Any:
        if given is None and NoneType in hints:
            return None
        hints = tuple(hint for hint in hints if hint is not NoneType)
        if str in hints and len(hints) > 1:  # an input of a working: text that reads as a number is one
            return (
                given
                if isinstance(given, str) and not _NUMBER.fullmatch(given)
                else self._number(given, path)
            )
        kinds = {get_origin(hint) or hint for hint in hints}
        if len(kinds) == 1:
            return self.read(hints[0], given, path)
        return self._by_role(hints, given, path)

    def _by_role(self, records: tuple[Any, ...], given: object, path: str) -> Any:
        if not isinstance(given, Mapping):
            return self._refuse(path, "must be an object")
        role_path = _join(path, "role")
        if "role" not in given:
            return self._refuse(role_path, "is missing")
        by_role = {plain_value(role): each for each in records for role in get_args(hints_of(each)["role"])}
        if given["role"] not in by_role:
            return self._refuse(role_path, f"must be one of: {', '.join(map(str, by_role))}")
        return self._record(by_role[given["role"]], given, path)

    def _record(self, record: Any, given: object, path: str) -> Any:
        if not isinstance(given, Mapping):
            return self._refuse(path or "the whole", "must be an object")
        hints, needed = hints_of(record), needed_fields(record)
        for name in given:
            if name not in hints:
                self._refuse(_join(path, str(name)), f"is not known here{_meant(str(name), hints)}")
        found: dict[str, Any] = {}
        for name in hints:
            if name in given:
                found[name] = self.read(hints[name], given[name], _join(path, name))
            elif name in needed:
                found[name] = self._refuse(_join(path, name), "is missing")
        if _UNREADABLE in found.values():
            return _UNREADABLE
        try:
            return record(**found)
        except Refusal as refusal:
            for each in refusal.each:
                self._refuse(_join(path, each.field), each.requirement)
            return _UNREADABLE


def _join(path: str, name: str) -> str:
    return f"{path}.{name}" if path else name


def _meant(name: str, known: Mapping[str, Any]) -> str:
    close = get_close_matches(name, known, n=1)
    return f": did you mean {close[0]}?" if close else ""


def plain_value(value: object) -> object:
    """Return what stands for a value in JSON: an enumeration's word, or the value itself.

    Args:
        value: The value. Any. [-]

    Returns:
        The plain value. Any. [-]

    Source:
        Own definition.
    """
    return value.value if isinstance(value, Enum) else value


def needed_fields(record: Any) -> frozenset[str]:
    """Return the fields that a record cannot be made without.

    Args:
        record: The class. Class. [-]

    Returns:
        Their names. Set. [-]

    Source:
        Own definition.
    """
    if not is_dataclass(record):
        return frozenset(record._fields) - frozenset(record._field_defaults)
    every: tuple[Field[Any], ...] = fields(record)
    return frozenset(
        each.name for each in every if each.default is MISSING and each.default_factory is MISSING
    )
