from __future__ import annotations

from argparse import ArgumentParser
from getpass import getpass
from typing import Any

from django.contrib.auth.models import User
from django.contrib.auth.password_validation import validate_password
from django.core.exceptions import ValidationError
from django.core.management.base import BaseCommand, CommandError
from django.db import transaction

from jobs.firm.models import Firm
from jobs.firm.services import add_person


class Command(BaseCommand):
    help = "Open the book of a firm: its name and its first owner, who adds everything else on the screens."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--firm", required=True, metavar="NAME", help="as customers know it")
        parser.add_argument("--owner", required=True, metavar="NAME", help="first and last name")
        parser.add_argument("--username", required=True, help="to log in with")

    def handle(self, *, firm: str, owner: str, username: str, **_: Any) -> None:
        if Firm.objects.exists():
            raise CommandError("This book has a firm already; its owner adds people on the screens.")
        password = self._ask_for_password(User(username=username))
        with transaction.atomic():
            Firm.objects.create(pk=1, name=firm)
            add_person(username=username, full_name=owner, role="owner", password=password)
        self.stdout.write(
            f"Opened the book of {firm}. Sign in as {username} and fill in the firm's particulars."
        )

    def _ask_for_password(self, person: User) -> str:
        """Ask at the keyboard: an argument would stay in the shell's history."""
        while True:
            password = getpass("Password: ")
            try:
                validate_password(password, person)
            except ValidationError as weakness:
                self.stderr.write("\n".join(weakness.messages))
                continue
            if getpass("Once more: ") == password:
                return password
            self.stderr.write("The two were not the same.")
