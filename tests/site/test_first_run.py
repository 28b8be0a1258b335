from __future__ import annotations

import errno
import json
import os
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest

from contractor_site.first_run import debian_packages, demo_folder, environment
from contractor_site.first_run.cannot_start import CannotStart, why_it_failed
from contractor_site.first_run.start import start

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def own_environment(tmp_path, monkeypatch):
    """Point the first run at an empty folder with two locks of its own."""
    folder = tmp_path / ".venv"
    monkeypatch.setattr(environment, "ROOT", tmp_path)
    monkeypatch.setattr(environment, "ENVIRONMENT", folder)
    monkeypatch.setattr(environment, "STAMP", folder / "eavesbook-stamp.json")
    for name in ("RUNTIME_LOCK", "TEST_LOCK"):
        lock = tmp_path / getattr(environment, name).name
        lock.write_text(name)
        monkeypatch.setattr(environment, name, lock)
    (folder / "bin").mkdir(parents=True)
    (folder / "bin" / "python").touch()
    return folder


@pytest.fixture
def commands(monkeypatch):
    """Record what would be run, and let all of it succeed."""
    ran: list[list[str]] = []

    def run(command: list[str]) -> bool:
        ran.append(command)
        return True

    monkeypatch.setattr(environment, "_run", run)
    return ran


def test_the_first_run_imports_nothing_that_bare_python_lacks():
    script = "import sys; sys.path.insert(0, sys.argv[1]); import contractor_site.first_run.start"
    subprocess.run([sys.executable, "-I", "-S", "-c", script, str(ROOT)], check=True)


def test_packages_come_by_digest_and_only_as_wheels(own_environment, commands, monkeypatch):
    monkeypatch.setattr(environment.shutil, "which", lambda _name: None)
    environment._make(environment.RUNTIME_LOCK)
    install = commands[-1]
    assert "--require-hashes" in install
    assert install[install.index("--only-binary") + 1] == ":all:"


def test_uv_is_used_when_it_is_there_and_pip_when_uv_fails(own_environment, monkeypatch):
    ran: list[str] = []
    monkeypatch.setattr(environment.shutil, "which", lambda name: f"/bin/{name}")
    monkeypatch.setattr(
        environment, "_run", lambda command: ran.append(command[0]) or command[0] != "/bin/uv"
    )
    environment._make(environment.RUNTIME_LOCK)
    assert ran[0] == "/bin/uv"
    assert ran[-1] == str(own_environment / "bin" / "python")


def test_the_environment_is_ready_only_after_all_of_it_succeeded(own_environment, monkeypatch):
    monkeypatch.setattr(environment.shutil, "which", lambda _name: None)
    monkeypatch.setattr(environment, "_run", lambda command: "pip" not in command)
    with pytest.raises(CannotStart, match=r"requirements\.lock"):
        environment._make(environment.RUNTIME_LOCK)
    assert not environment._is_ready(environment.RUNTIME_LOCK)


def test_the_test_environment_serves_the_site_too_and_not_the_other_way(own_environment, commands):
    environment._make(environment.RUNTIME_LOCK)
    assert environment._is_ready(environment.RUNTIME_LOCK)
    assert not environment._is_ready(environment.TEST_LOCK)
    environment._make(environment.TEST_LOCK)
    assert environment._is_ready(environment.RUNTIME_LOCK)
    assert environment._is_ready(environment.TEST_LOCK)


def test_a_disk_without_room_is_said_before_anything_is_made(own_environment, commands, monkeypatch):
    monkeypatch.setattr(environment, "ROOM_MEGABYTES", 10**12)
    with pytest.raises(CannotStart, match="nearly full"):
        environment._make(environment.RUNTIME_LOCK)
    assert commands == []


@pytest.mark.parametrize("change", ["lock", "python", "stamp", "interpreter"])
def test_the_environment_is_made_again_when_what_it_was_made_from_changed(own_environment, commands, change):
    environment._make(environment.RUNTIME_LOCK)
    if change == "lock":
        environment.RUNTIME_LOCK.write_text("another")
    elif change == "python":
        environment.STAMP.write_text(
            json.dumps(json.loads(environment.STAMP.read_text()) | {"python": "3.9"})
        )
    elif change == "stamp":
        environment.STAMP.write_text("{")
    else:
        (own_environment / "bin" / "python").unlink()
    assert not environment._is_ready(environment.RUNTIME_LOCK)


def test_no_variable_can_send_packages_or_imports_elsewhere(monkeypatch):
    for name in environment.MISLEADING_VARIABLES:
        monkeypatch.setenv(name, "/elsewhere")
    monkeypatch.setenv("PIP_INDEX_URL", "https://packages.example.com/simple")
    variables = environment._clean_variables()
    assert not set(environment.MISLEADING_VARIABLES) & set(variables)
    assert variables["PIP_INDEX_URL"]  # a firm's own mirror is not ours to take away


def test_an_environment_of_someones_own_that_has_django_is_left_alone(own_environment, commands, monkeypatch):
    monkeypatch.delenv("EAVESBOOK_NO_SETUP", raising=False)
    monkeypatch.setattr(sys, "prefix", "/someone/else")
    environment.enter(for_tests=True)
    assert commands == []


def test_nothing_is_set_up_where_that_is_turned_off(own_environment, commands, monkeypatch):
    monkeypatch.setenv("EAVESBOOK_NO_SETUP", "1")
    monkeypatch.setattr(sys, "prefix", sys.base_prefix)
    environment.enter(for_tests=False)
    assert commands == []


def test_a_person_who_may_not_install_gets_the_exact_command(monkeypatch):
    monkeypatch.setattr(debian_packages.os, "geteuid", lambda: 1000)
    monkeypatch.setattr(debian_packages.shutil, "which", lambda name: f"/usr/bin/{name}")
    with pytest.raises(CannotStart) as refusal:
        debian_packages.install_or_name(["python3-venv", "libpango-1.0-0"])
    line = str(refusal.value)
    assert "\n" not in line
    assert line.endswith("sudo apt-get install --yes --no-install-recommends python3-venv libpango-1.0-0")


def test_all_that_is_missing_is_named_at_once(own_environment, monkeypatch, capsys):
    monkeypatch.delenv("EAVESBOOK_NO_SETUP", raising=False)
    monkeypatch.setattr(sys, "prefix", sys.base_prefix)
    monkeypatch.setattr(os, "geteuid", lambda: 1000)
    monkeypatch.setattr(environment.shutil, "which", lambda _name: None)
    monkeypatch.setattr(debian_packages.importlib.util, "find_spec", lambda _name: None)
    monkeypatch.setattr(debian_packages, "DRAWING_LIBRARIES", {"libnone": "libnone.so.9"})
    assert start(["manage.py", "demo"]) == 1
    assert "python3-venv libnone" in capsys.readouterr().err


def test_without_sudo_the_command_becomes_root_by_su(monkeypatch):
    monkeypatch.setattr(debian_packages.os, "geteuid", lambda: 1000)
    monkeypatch.setattr(debian_packages.shutil, "which", lambda _name: None)
    assert debian_packages.apt_command(["python3-venv"]).startswith("su -c 'apt-get install")


def test_root_has_missing_packages_installed(monkeypatch):
    ran: list[list[str]] = []

    def run(command, **_):
        ran.append(command)
        return subprocess.CompletedProcess(command, 0)

    monkeypatch.setattr(debian_packages.os, "geteuid", lambda: 0)
    monkeypatch.setattr(debian_packages.shutil, "which", lambda name: f"/usr/bin/{name}")
    monkeypatch.setattr(debian_packages.subprocess, "run", run)
    debian_packages.install_or_name(["libpango-1.0-0"])
    assert [command[3] for command in ran] == ["update", "install"]
    assert ran[-1][-1] == "libpango-1.0-0"


def test_a_library_is_missing_when_the_loader_cannot_find_it(monkeypatch):
    monkeypatch.setattr(
        debian_packages, "DRAWING_LIBRARIES", {"libnone": "libnone.so.9", "libc6": "libc.so.6"}
    )
    assert debian_packages.missing_for_papers() == ["libnone"]


@pytest.mark.parametrize(
    ("number", "words"),
    [(errno.ENOSPC, "disk is full"), (errno.EACCES, "No permission to write"), (errno.EROFS, "read-only")],
)
def test_what_a_person_can_put_right_is_one_line(number, words):
    line = why_it_failed(OSError(number, os.strerror(number), "/srv/book"))
    assert words in line
    assert "/srv/book" in line
    assert "\n" not in line


def test_a_failure_of_ours_keeps_its_traceback(monkeypatch):
    def fail(**_):
        raise FileNotFoundError(errno.ENOENT, "gone")

    monkeypatch.setattr(environment, "enter", fail)
    with pytest.raises(FileNotFoundError):
        start(["manage.py", "check"])


def test_a_full_disk_ends_the_command_with_one_line_and_status_one(monkeypatch, capsys):
    def fail(**_):
        raise OSError(errno.ENOSPC, "No space left on device")

    monkeypatch.setattr(environment, "enter", fail)
    assert start(["manage.py", "check"]) == 1
    assert capsys.readouterr().err.count("\n") == 1


@pytest.fixture
def demo(tmp_path, monkeypatch):
    monkeypatch.setattr(demo_folder, "FOLDER", tmp_path / "demo")
    monkeypatch.setattr(demo_folder, "DATABASE", tmp_path / "demo" / "demo.sqlite3")
    monkeypatch.setattr(os, "environ", {})
    return tmp_path / "demo" / "demo.sqlite3"


def test_the_demo_takes_a_database_of_its_own_and_takes_it_again(demo):
    demo_folder.take([])
    demo_folder.take(["--port", "8001", "--no-serve"])
    assert os.environ["DATABASE_URL"] == f"sqlite:///{demo}"
    assert os.environ["BASE_URL"] == "http://127.0.0.1:8001"


def test_the_demo_refuses_a_database_that_it_did_not_make(demo):
    demo.parent.mkdir()
    with closing(sqlite3.connect(demo)) as database:
        database.execute("CREATE TABLE customers (name)")
    before = demo.read_bytes()
    with pytest.raises(CannotStart, match="was not made by the demo"):
        demo_folder.take([])
    assert demo.read_bytes() == before


def test_the_demo_refuses_a_file_that_is_no_database(demo):
    demo.parent.mkdir()
    demo.write_text("a shopping list, long enough to be taken for the head of a database" * 20)
    with pytest.raises(CannotStart, match="no database of the demo"):
        demo_folder.take([])


def test_the_demo_does_not_run_on_the_database_of_the_real_site(demo):
    os.environ["DATABASE_URL"] = "postgresql://office@/book"
    with pytest.raises(CannotStart, match="DATABASE_URL"):
        demo_folder.take([])
    assert not demo.exists()


def test_the_demo_mails_nobody_whatever_the_real_site_is_set_to(demo):
    os.environ.update(EMAIL_URL="smtp://mail.example.com", BASE_URL="https://eavesbook.example.com")
    demo_folder.take([])
    assert "EMAIL_URL" not in os.environ
    assert os.environ["BASE_URL"].startswith("http://127.0.0.1:")
