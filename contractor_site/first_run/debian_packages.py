"""The Debian packages that Python packages cannot bring: found missing, installed as root, else named."""

from __future__ import annotations

import ctypes
import importlib.util
import os
import shlex
import shutil
import subprocess
import sys
from collections.abc import Sequence

from contractor_site.first_run.cannot_start import CannotStart

DRAWING_LIBRARIES = {
    "libpango-1.0-0": "libpango-1.0.so.0",
    "libpangoft2-1.0-0": "libpangoft2-1.0.so.0",
    "libharfbuzz-subset0": "libharfbuzz-subset.so.0",
}
"""What turns a page into a PDF: Debian package and the library it brings."""


def missing_for_environment() -> list[str]:
    """Return the packages without which `python -m venv` makes no usable environment."""
    return [] if importlib.util.find_spec("ensurepip") else ["python3-venv"]


def missing_for_papers() -> list[str]:
    """Return the packages without which no PDF can be made; asks the loader, so any distribution will do."""
    return [package for package, library in DRAWING_LIBRARIES.items() if not _loads(library)]


def install_or_name(packages: Sequence[str]) -> None:
    """Install the packages when we may; otherwise stop with the exact command that does."""
    if not packages:
        return
    if os.geteuid() != 0 or shutil.which("apt-get") is None:
        raise CannotStart(f"Missing Debian packages; run this, then try again: {apt_command(packages)}")
    print(f"Installing Debian packages: {' '.join(packages)}", file=sys.stderr, flush=True)
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive"}
    for arguments in (["update"], ["install", "--yes", "--no-install-recommends", *packages]):
        # Output goes to the screen's error stream: a caller may be reading ours.
        outcome = subprocess.run(
            ["apt-get", "-qq", "-o=Dpkg::Use-Pty=0", *arguments],
            env=environment,
            stdout=sys.stderr,
            check=False,
        )
    if outcome.returncode != 0:
        raise CannotStart(f"apt-get could not install them (see above); run: {apt_command(packages)}")
    importlib.invalidate_caches()


def apt_command(packages: Sequence[str]) -> str:
    """Return the one line that installs the packages, by the way this machine has of becoming root."""
    command = f"apt-get install --yes --no-install-recommends {' '.join(packages)}"
    if os.geteuid() == 0:
        return command
    return f"sudo {command}" if shutil.which("sudo") else f"su -c {shlex.quote(command)}"


def _loads(library: str) -> bool:
    try:
        ctypes.CDLL(library)
    except OSError:
        return False
    return True
