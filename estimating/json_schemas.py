"""The JSON Schemas of the forms, made from the same type hints that read them."""

from __future__ import annotations

from dataclasses import is_dataclass
from datetime import date
from decimal import Decimal
from enum import Enum
from types import NoneType, UnionType
from typing import Any, Literal, TypeVar, Union, get_args, get_origin

from estimating.json_forms import FORMATS
from estimating.json_records import hints_of, needed_fields, plain_value

_PLAIN: dict[Any, dict[str, Any]] = {
    str: {"type": "string"},
    int: {"type": "integer"},
    float: {"type": "number"},
    bool: {"type": "boolean"},
    Decimal: {"type": ["string", "number"], "pattern": r"^-?\d+(\.\d+)?$"},
    date: {"type": "string", "format": "date"},
    NoneType: {"type": "null"},
}


def form_schemas() -> dict[str, Any]:
    """Give the JSON Schema of every form, under the form's name.

    Args:

    Returns:
        The schemas. Mapping. [-]

    Source:
        JSON Schema draft 2020-12, from memory.
    """
    return {name: _form_schema(record, name) for record, name in FORMATS.items()}


def _form_schema(record: type, name: str) -> dict[str, Any]:
    definitions: dict[str, Any] = {}
    _schema(record, definitions)
    top = definitions.pop(record.__name__)
    top["properties"] = {"format": {"const": name}, **top["properties"]}
    top["required"] = ["format", *top["required"]]
    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **top, "$defs": definitions}


def _schema(  # noqa: PLR0911 - one line for each kind of hint
    hint: Any, definitions: dict[str, Any]
) -> dict[str, Any]:
    origin, arguments = get_origin(hint), get_args(hint)
    if origin in (Union, UnionType):
        return {"anyOf": [_schema(each, definitions) for each in arguments]}
    if origin is Literal:
        return {"enum": [plain_value(each) for each in arguments]}
    if origin is frozenset:
        return {"type": "array", "uniqueItems": True, "items": _schema(arguments[0], definitions)}
    if origin is tuple:
        return _list_schema(arguments, definitions)
    kind = origin or hint
    if isinstance(kind, TypeVar):
        return {"type": ["number", "string"]}
    if is_dataclass(kind) or hasattr(kind, "_fields"):
        return _reference(kind, definitions)
    if issubclass(kind, Enum):
        return {"enum": [each.value for each in kind]}
    return _PLAIN[kind]


def _list_schema(arguments: tuple[Any, ...], definitions: dict[str, Any]) -> dict[str, Any]:
    if arguments[-1] is Ellipsis:
        return {"type": "array", "items": _schema(arguments[0], definitions)}
    each = [_schema(argument, definitions) for argument in arguments]
    return {"type": "array", "prefixItems": each, "minItems": len(each), "maxItems": len(each)}


def _reference(record: Any, definitions: dict[str, Any]) -> dict[str, Any]:
    name = record.__name__
    if name not in definitions:
        definitions[name] = {}  # a record that holds itself finds this
        definitions[name] |= {
            "type": "object",
            "description": (record.__doc__ or "").strip().splitlines()[0],
            "properties": {field: _schema(hint, definitions) for field, hint in hints_of(record).items()},
            "required": sorted(needed_fields(record)),
            "additionalProperties": False,
        }
    return {"$ref": f"#/$defs/{name}"}
