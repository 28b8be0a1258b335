"""Make the virtual environment that the project asks for, and run inside it."""

from __future__ import annotations

import fcntl
import hashlib
import importlib.util
import json
import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from contractor_site.first_run.cannot_start import CannotStart
from contractor_site.first_run.debian_packages import install_or_name, missing_for_environment

ROOT = Path(__file__).resolve().parents[2]
ENVIRONMENT = ROOT / ".venv"
STAMP = ENVIRONMENT / "eavesbook-stamp.json"

RUNTIME_LOCK = ROOT / "requirements.lock"
TEST_LOCK = ROOT / "requirements-test.lock"
"""The test lock holds everything of the runtime lock, at the same versions, and the test tools besides."""

ROOM_MEGABYTES = 700
"""The larger environment takes 550 MB; pip says of a full disk only that something returned 1."""

NO_SETUP = "EAVESBOOK_NO_SETUP"
"""Set to 1 where packages come another way (a container image, the system): nothing is ever installed."""

MISLEADING_VARIABLES = (
    "PYTHONPATH", "PYTHONHOME", "PIP_TARGET", "PIP_PREFIX", "PIP_USER", "PIP_REQUIRE_VIRTUALENV",
    "VIRTUAL_ENV", "__PYVENV_LAUNCHER__",
)  # fmt: skip
"""Would send packages, or imports, to somewhere other than our environment."""


def enter(*, for_tests: bool) -> None:
    """Return inside an environment that has what is needed; may make it and start this program again."""
    if _is_none_of_ours(for_tests):
        return
    lock = TEST_LOCK if for_tests else RUNTIME_LOCK
    if not _is_ready(lock):
        with _one_at_a_time():
            if not _is_ready(lock):  # the one before us may have made it
                _make(lock)
    if Path(sys.prefix) != ENVIRONMENT:
        python = str(ENVIRONMENT / "bin" / "python")
        os.execve(python, [python, *sys.orig_argv[1:]], _clean_variables())  # noqa: S606


def missing_packages(*, for_tests: bool) -> list[str]:
    """Return the Debian packages without which `enter` could not do its work."""
    lock = TEST_LOCK if for_tests else RUNTIME_LOCK
    if _is_none_of_ours(for_tests) or _is_ready(lock) or shutil.which("uv"):
        return []
    return missing_for_environment()


def _is_none_of_ours(for_tests: bool) -> bool:
    return os.environ.get(NO_SETUP) == "1" or _in_another_environment(for_tests)


def _in_another_environment(for_tests: bool) -> bool:
    """Tell whether someone runs us in an environment of their own that has what we need: it is theirs."""
    if sys.prefix == sys.base_prefix or Path(sys.prefix) == ENVIRONMENT:
        return False
    needed = ("django", "pytest_django") if for_tests else ("django",)
    return all(importlib.util.find_spec(name) for name in needed)


def _is_ready(lock: Path) -> bool:
    try:
        stamp = json.loads(STAMP.read_text())
    except (FileNotFoundError, ValueError):
        return False
    python = ENVIRONMENT / "bin" / "python"
    return (
        stamp["python"] == _python_version()
        and stamp["locks"].get(lock.name) == _digest(lock)
        and python.exists()
    )


def _make(lock: Path) -> None:
    free_megabytes = shutil.disk_usage(ROOT).free // 1_000_000
    if free_megabytes < ROOM_MEGABYTES:
        raise CannotStart(
            f"The disk is nearly full: {ROOT} needs {ROOM_MEGABYTES} MB to set up, and has {free_megabytes}."
        )
    print(f"Setting up .venv from {lock.name} (once) ...", file=sys.stderr, flush=True)
    STAMP.unlink(missing_ok=True)
    uv = shutil.which("uv")
    if not (uv and _make_with_uv(uv, lock)):
        _make_with_pip(lock)
    locks = [RUNTIME_LOCK, TEST_LOCK] if lock == TEST_LOCK else [RUNTIME_LOCK]
    stamp = {"python": _python_version(), "locks": {each.name: _digest(each) for each in locks}}
    STAMP.write_text(json.dumps(stamp))


def _make_with_uv(uv: str, lock: Path) -> bool:
    """Try the faster way; it may not know the package mirror that pip was told of, so failing is allowed."""
    environment = ["venv", "--quiet", "--clear", "--python", _base_python(), str(ENVIRONMENT)]
    packages = [
        "pip", "install", "--quiet", "--python", str(ENVIRONMENT / "bin" / "python"),
        "--require-hashes", "--only-binary", ":all:", "--requirement", str(lock),
    ]  # fmt: skip
    return all(_run([uv, "--no-config", *arguments]) for arguments in (environment, packages))


def _make_with_pip(lock: Path) -> None:
    install_or_name(missing_for_environment())
    if not _run([_base_python(), "-m", "venv", "--clear", str(ENVIRONMENT)]):
        raise CannotStart(f"Python could not make {ENVIRONMENT} (see above).")
    packages = [
        "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--no-input",
        "--require-hashes", "--only-binary", ":all:", "--requirement", str(lock),
    ]  # fmt: skip
    if not _run([str(ENVIRONMENT / "bin" / "python"), *packages]):
        raise CannotStart(f"Could not install {lock.name} (see above). Check the network and run it again.")


def _run(command: list[str]) -> bool:
    # Standard error for everything: what the command we were asked for prints stays alone on standard output.
    return (
        subprocess.run(command, env=_clean_variables(), stdout=sys.stderr, cwd=ROOT, check=False).returncode
        == 0
    )


def _clean_variables() -> dict[str, str]:
    return {name: value for name, value in os.environ.items() if name not in MISLEADING_VARIABLES}


@contextmanager
def _one_at_a_time() -> Iterator[None]:
    """Hold the set-up for ourselves: two terminals at once must not make one environment."""
    with (ROOT / ".venv.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        yield


def _base_python() -> str:
    return getattr(sys, "_base_executable", None) or sys.executable


def _python_version() -> str:
    return f"{sys.version_info.major}.{sys.version_info.minor}"


def _digest(path: Path) -> str:
    return hashlib.sha256(path.read_bytes()).hexdigest()
