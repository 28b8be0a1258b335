from __future__ import annotations

from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError

from contractor_site.backups.manifest import Refused
from contractor_site.backups.restore import restore


class Command(BaseCommand):
    help = "Put an archive of `backup` in place, after proving all of it. Stop the site and its worker first."
    requires_system_checks = ()  # it must run on a site whose database is missing or broken

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("file", type=Path, metavar="FILE", help="an archive made by `manage.py backup`")
        parser.add_argument(
            "--replace", action="store_true", help="even though this site holds records already"
        )

    def handle(self, *, file: Path, replace: bool, **_: Any) -> None:
        try:
            manifest, kept = restore(file, replace=replace)
        except Refused as refusal:
            raise CommandError(str(refusal)) from refusal
        self.stdout.write(f"Restored the site of {manifest.made_at} (version {manifest.version}).")
        if kept:
            self.stdout.write(f"What was here before is kept beside it, under the name {kept}.")
