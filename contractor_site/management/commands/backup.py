from __future__ import annotations

from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.core.management.base import BaseCommand, CommandError

from contractor_site.backups.archive import back_up
from contractor_site.backups.manifest import Refused


class Command(BaseCommand):
    help = "Write database, photographs and issued papers to one new file, while the site is in use."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("file", type=Path, metavar="FILE", help="such as eavesbook-2026-11-25.tar.gz")

    def handle(self, *, file: Path, **_: Any) -> None:
        try:
            manifest = back_up(file)
        except Refused as refusal:
            raise CommandError(str(refusal)) from refusal
        megabytes = file.stat().st_size / 1_000_000
        self.stdout.write(f"{file}: {len(manifest.members)} files, {megabytes:.1f} MB, {manifest.made_at}")
