"""Public functions of the core say what they take, in which units, and where their rule is written.

Held to it: every function defined at the top of a module of `estimating` whose name has no underscore in
front. Methods, properties and records are exempt: a record's fields are named with their units, and a method
leans on its class.
"""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable, Iterator
from types import ModuleType
from typing import Any

import pytest

import estimating

HEADINGS = ("Args", "Returns", "Raises", "Source")
_HEADING = re.compile(rf"({'|'.join(HEADINGS)}):\s*$", re.MULTILINE)
_ENTRY = re.compile(r"(\*{0,2}\w+):\s")
_ENDS_WITH_A_UNIT = re.compile(r"\[[^\[\]]+\]$")


def modules() -> Iterator[ModuleType]:
    for found in pkgutil.walk_packages(estimating.__path__, "estimating."):
        if not found.name.endswith("__main__"):  # importing it would run the command
            yield importlib.import_module(found.name)


def public_functions() -> Iterator[Callable[..., Any]]:
    for module in (estimating, *modules()):
        for name, member in vars(module).items():
            function = inspect.unwrap(member) if callable(member) else member
            is_public_here = (
                not name.startswith("_") and getattr(function, "__module__", "") == module.__name__
            )
            if is_public_here and inspect.isfunction(function):
                yield function


def faults(function: Callable[..., Any]) -> list[str]:
    """Every way in which a docstring falls short, in words that say what to write."""
    text = inspect.getdoc(function)
    if not text:
        return ["there is no docstring"]
    opening, sections = _split(text)
    found = [] if _is_one_sentence(opening) else ["the first line must be one sentence with a full stop"]
    found += _faults_of_args(function, sections.get("Args", ""))
    if inspect.signature(function).return_annotation not in (None, "None", "NoReturn"):
        found += _faults_of_returns(sections.get("Returns", ""))
    if not sections.get("Source", "").strip():
        found.append(
            'there is no "Source:": name document, edition and clause, or "common practice, no source"'
        )
    return found


def _split(text: str) -> tuple[str, dict[str, str]]:
    opening, *rest = _HEADING.split(text)
    return opening, dict(zip(rest[::2], rest[1::2], strict=True))


def _is_one_sentence(opening: str) -> bool:
    first, _, rest = opening.partition("\n")
    return first.endswith(".") and (not rest.strip() or rest.startswith("\n"))


def _faults_of_args(function: Callable[..., Any], section: str) -> Iterator[str]:
    taken = list(inspect.signature(function).parameters)
    entries = _entries(section)
    if missing := [name for name in taken if name not in entries]:
        yield f'"Args:" leaves out {", ".join(missing)}'
    if extra := [name for name in entries if name not in taken]:
        yield f'"Args:" names {", ".join(extra)}, which the function does not take'
    if not missing and not extra and list(entries) != taken:
        yield f'"Args:" must follow the order of the signature: {", ".join(taken)}'
    for name, words in entries.items():
        if not _ENDS_WITH_A_UNIT.search(words):
            yield f'"Args:" must end {name} with its unit, like [mm], or [-] where it has none: "{words}"'


def _faults_of_returns(section: str) -> Iterator[str]:
    words = " ".join(section.split())
    if not words:
        yield 'there is no "Returns:"'
    elif not _ENDS_WITH_A_UNIT.search(words):
        yield f'"Returns:" must end with a unit, like [mm], or [-] where there is none: "{words}"'


def _entries(section: str) -> dict[str, str]:
    """The arguments described; a line indented further than the first goes on with the one before."""
    lines = [line for line in section.splitlines() if line.strip()]
    if not lines:
        return {}
    margin = len(lines[0]) - len(lines[0].lstrip())
    entries: dict[str, str] = {}
    name = ""
    for line in lines:
        entry = _ENTRY.match(line.strip()) if len(line) - len(line.lstrip()) == margin else None
        if entry:
            name = entry[1].lstrip("*")
            entries[name] = line.strip()[entry.end() :]
        elif name:
            entries[name] += f" {line.strip()}"
    return entries


@pytest.mark.parametrize(
    "function", list(public_functions()), ids=lambda each: f"{each.__module__}.{each.__qualname__}"
)
def test_public_functions_name_their_arguments_units_and_source(function: Callable[..., Any]) -> None:
    found = faults(function)
    assert not found, "\n".join([_place(function), *found])


def _place(function: Callable[..., Any]) -> str:
    """Where to mend it, as an editor opens it."""
    return f"{inspect.getsourcefile(function)}:{inspect.getsourcelines(function)[1]} {function.__name__}"


def _well_told(depth_mm: int, *, centres_mm: int) -> float:
    """Give a share.

    Why it is asked for.

    Args:
        depth_mm: Depth of the joist,
            told over two lines. Scalar. [mm]
        centres_mm: Joist centres. Scalar. [mm]

    Returns:
        The share. Scalar. [-]

    Source:
        Common practice, no source.
    """
    return depth_mm / centres_mm


def _badly_told(depth_mm: int, centres_mm: int) -> float:
    """Give a share
    without ever ending the sentence

    Args:
        depth_mm: Depth of the joist.
        width_mm: Width of the joist. Scalar. [mm]

    Returns:
        The share.
    """
    return depth_mm / centres_mm


def _nothing_told(depth_mm: int) -> None:
    pass


def test_the_rule_lets_a_full_docstring_pass() -> None:
    assert faults(_well_told) == []


def test_the_rule_finds_each_fault() -> None:
    assert [fault.partition(" [")[0].partition(":")[0] for fault in faults(_badly_told)] == [
        "the first line must be one sentence with a full stop",
        '"Args',
        '"Args',
        '"Args',
        '"Returns',
        'there is no "Source',
    ]
    assert faults(_nothing_told) == ["there is no docstring"]


def test_the_rule_reaches_functions_behind_a_cache() -> None:
    assert "registry" in {each.__name__ for each in public_functions()}
