"""From a bare command line to a running command: environment first, then pytest or Django."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence

from contractor_site.first_run import demo_folder, environment
from contractor_site.first_run.cannot_start import CannotStart, why_it_failed
from contractor_site.first_run.debian_packages import install_or_name, missing_for_papers


def start(arguments: Sequence[str]) -> int:
    """Run the command and return its exit status; what a person can put right is said in one line."""
    command = arguments[1] if len(arguments) > 1 else "help"
    try:
        papers = missing_for_papers() if command in ("demo", "test") else []
        install_or_name([*environment.missing_packages(for_tests=command == "test"), *papers])
        environment.enter(for_tests=command == "test")
        if command == "test":
            return _run_tests(arguments[2:])
        if command == "demo":
            demo_folder.take(arguments[2:])
        return _run_django(arguments)
    except CannotStart as refusal:
        print(refusal, file=sys.stderr)
    except OSError as error:
        why = why_it_failed(error)
        if why is None:
            raise
        print(why, file=sys.stderr)
    return 1


def _run_tests(options: Sequence[str]) -> int:
    import pytest  # noqa: PLC0415 - only there once the environment is

    os.chdir(environment.ROOT)
    shared_out = (
        []
        if any(option.startswith(("-n", "--numprocesses", "--pdb")) for option in options)
        else ["-nauto", "--dist=worksteal"]
    )
    return int(pytest.main([*shared_out, *options]))


def _run_django(arguments: Sequence[str]) -> int:
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "contractor_site.settings")
    from django.conf import settings  # noqa: PLC0415 - as above
    from django.core.exceptions import ImproperlyConfigured  # noqa: PLC0415
    from django.core.management import execute_from_command_line  # noqa: PLC0415

    try:
        _ = settings.BASE_URL  # reads them all
    except ImproperlyConfigured as complaint:
        raise CannotStart(str(complaint)) from complaint
    execute_from_command_line(list(arguments))
    return 0
