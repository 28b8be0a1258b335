"""A PostgreSQL cluster for tests alone: its own folder, its own socket, no network, gone afterwards.

`python -m tests.private_postgresql COMMAND ...` runs a command with DATABASE_URL pointing into one.
"""

from __future__ import annotations

import os
import pwd
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path


def server_programs() -> Path | None:
    """Return the folder of initdb and pg_ctl: Debian keeps them off the PATH, one folder a version."""
    versions = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"), key=lambda path: int(path.parts[-3]))
    found = str(versions[-1]) if versions else shutil.which("initdb")
    return Path(found).parent if found else None


@contextmanager
def private_cluster() -> Iterator[str]:
    """Start a cluster, yield its DATABASE_URL, and leave nothing behind."""
    programs = server_programs()
    assert programs is not None, "PostgreSQL is not installed"
    folder = Path(tempfile.mkdtemp(prefix="eavesbook-pg-"))
    cluster = folder / "cluster"
    as_owner: list[str] = []
    if os.geteuid() == 0:  # PostgreSQL refuses to run as root
        owner = pwd.getpwnam("postgres")
        os.chown(folder, owner.pw_uid, owner.pw_gid)
        as_owner = ["runuser", "-u", "postgres", "--"]
    folder.chmod(0o711)

    def run(program: str, *arguments: str) -> None:
        command = [*as_owner, str(programs / program), *arguments]
        subprocess.run(command, cwd="/", check=True, stdout=subprocess.DEVNULL)

    settings = (
        f"-c listen_addresses='' -c unix_socket_directories={folder} -c fsync=off -c synchronous_commit=off"
    )
    try:
        run(
            "initdb", "--pgdata", str(cluster), "--username", "postgres", "--auth", "trust",
            "--encoding", "UTF8", "--locale", "C.UTF-8", "--no-sync",
        )  # fmt: skip
        run(
            "pg_ctl",
            "--pgdata",
            str(cluster),
            "--log",
            str(folder / "log"),
            "--wait",
            "-o",
            settings,
            "start",
        )
        try:
            run("createdb", "--host", str(folder), "--username", "postgres", "eavesbook")
            yield f"postgresql://postgres@/eavesbook?host={folder}"
        finally:
            run("pg_ctl", "--pgdata", str(cluster), "--mode", "immediate", "--wait", "stop")
    finally:
        shutil.rmtree(folder, ignore_errors=True)


if __name__ == "__main__":
    with private_cluster() as url:
        sys.exit(
            subprocess.run(sys.argv[1:], env={**os.environ, "DATABASE_URL": url}, check=False).returncode
        )
