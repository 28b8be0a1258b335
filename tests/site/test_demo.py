"""The demo as a newcomer runs it, in a copy of the project: its folder is the project's own."""

from __future__ import annotations

import json
import os
import re
import shutil
import signal
import socket
import stat
import subprocess
import sys
import time
from pathlib import Path
from urllib.error import URLError
from urllib.request import urlopen

import pytest

ROOT = Path(__file__).resolve().parents[2]
SOURCES = ("manage.py", "pyproject.toml", "contractor_site", "estimating", "jobs", "templates", "static")


@pytest.fixture(scope="module")
def project(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("project")
    for name in SOURCES:
        source = ROOT / name
        if source.is_dir():
            shutil.copytree(source, folder / name, ignore=shutil.ignore_patterns("__pycache__"))
        else:
            shutil.copy(source, folder / name)
    return folder


def start(project: Path, *options: str) -> subprocess.Popen[str]:
    variables = {"PATH": os.environ["PATH"], "HOME": str(project), "EAVESBOOK_NO_SETUP": "1"}
    return subprocess.Popen(
        [sys.executable, str(project / "manage.py"), "demo", *options],
        env=variables,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )


def run(project: Path, *options: str) -> tuple[int, str, str]:
    demo = start(project, *options)
    words, complaints = demo.communicate(timeout=600)
    return demo.returncode, words, complaints


@pytest.fixture(scope="module")
def first_run(project: Path) -> str:
    status, words, complaints = run(project, "--no-serve")
    assert status == 0, complaints
    return words


@pytest.fixture
def taken_port():
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        yield other.getsockname()[1]


def test_the_papers_that_it_names_are_there(project, first_run):
    papers = [Path(line.strip()) for line in first_run.splitlines() if line.endswith(".pdf")]
    for kind in ("quote", "materials-order", "job-sheet"):
        assert any(paper.name.startswith(kind) for paper in papers), kind
    assert {paper.parent for paper in papers} == {project / "demo-papers"}
    assert all(paper.read_bytes().startswith(b"%PDF-") for paper in papers)


def test_each_role_gets_a_password_of_its_own_that_only_this_person_can_read(project, first_run):
    found = re.findall(r"^  (owner|office|surveyor|crew) +\S+ +(\S+)$", first_run, flags=re.MULTILINE)
    assert [role for role, _ in found] == ["owner", "office", "surveyor", "crew"]
    assert len({password for _, password in found}) == 4
    assert all(len(password) >= 10 for _, password in found)
    kept = project / ".eavesbook" / "demo" / "log-ins.json"
    assert stat.S_IMODE(kept.stat().st_mode) == 0o600


def test_a_second_run_destroys_nothing_and_says_the_same(project, first_run):
    papers = {path: path.read_bytes() for path in (project / "demo-papers").iterdir()}
    status, words, complaints = run(project, "--no-serve")
    assert status == 0, complaints
    assert words == first_run
    assert {path: path.read_bytes() for path in (project / "demo-papers").iterdir()} == papers


def test_a_taken_port_is_one_line_and_status_one(project, first_run, taken_port):
    status, words, complaints = run(project, "--port", str(taken_port))
    assert status == 1
    assert words == ""
    assert complaints.count("\n") == 1
    assert str(taken_port) in complaints


def test_it_serves_until_it_is_interrupted_and_then_ends_well(project, first_run, taken_port):
    port = taken_port + 1
    demo = start(project, "--port", str(port))
    try:
        deadline = time.monotonic() + 60
        while True:
            try:
                with urlopen(f"http://127.0.0.1:{port}/health") as answer:
                    assert answer.status == 200
                    if json.load(answer)["worker"] == "ok":  # a worker runs beside it
                        break
            except URLError:
                assert demo.poll() is None, demo.communicate()[1]
            assert time.monotonic() < deadline
            time.sleep(0.1)
    finally:
        demo.send_signal(signal.SIGINT)
    assert demo.wait(timeout=30) == 0
    assert f"http://127.0.0.1:{port}/" in demo.communicate()[0]
