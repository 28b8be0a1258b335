"""Every public function of the core names its inputs with their units, and its source."""

from __future__ import annotations

import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable, Iterator
from typing import Any

import pytest

import estimating

ENTRY = re.compile(r"^    (\w+): ", re.MULTILINE)
UNIT = re.compile(r"\[[^\]]+\]")


def public_functions() -> Iterator[tuple[str, Callable[..., Any]]]:
    for module_info in pkgutil.walk_packages(estimating.__path__, "estimating."):
        if not module_info.name.endswith("__main__"):
            module = importlib.import_module(module_info.name)
            for name, each in vars(module).items():
                own = inspect.isfunction(inspect.unwrap(each)) and each.__module__ == module.__name__
                if own and not name.startswith("_"):
                    yield f"{module.__name__}.{name}", inspect.unwrap(each)


def sections(docstring: str) -> dict[str, str]:
    parts = re.split(r"^(Args|Returns|Raises|Source):\n", docstring, flags=re.MULTILINE)
    return dict(zip(parts[1::2], parts[2::2], strict=True))


FUNCTIONS = dict(public_functions())


@pytest.mark.parametrize("name", FUNCTIONS)
def test_a_public_function_says_what_it_takes_gives_and_rests_on(name: str) -> None:
    function = FUNCTIONS[name]
    said = sections(inspect.getdoc(function) or "")
    parameters = list(inspect.signature(function).parameters)
    assert ENTRY.findall(said.get("Args", "")) == parameters
    entries = re.split(r"\n(?=    \w+: )", said.get("Args", ""))
    assert all(UNIT.search(entry) for entry in entries if entry.strip())
    assert UNIT.search(said.get("Returns", "")), "Returns ends with its unit"
    assert said.get("Source", "").strip(), "Source is named"
