from __future__ import annotations

import pytest
from django.contrib.auth.models import User
from django.core.management import CommandError, call_command

from jobs.firm.models import Firm

pytestmark = pytest.mark.django_db

OPTIONS = {"firm": "Saltmarsh Loft Boarding", "owner": "Rhona Hale", "username": "rhona"}


@pytest.fixture
def typed(monkeypatch):
    """Answer each question for a password in turn."""
    answers: list[str] = []
    module = "contractor_site.management.commands.start_firm"
    monkeypatch.setattr(f"{module}.getpass", lambda _question: answers.pop(0))
    return answers


def test_a_firm_begins_with_its_name_and_one_owner(typed):
    typed += ["chalk line and plumb bob"] * 2
    call_command("start_firm", **OPTIONS)
    owner = User.objects.get()
    assert Firm.ours().name == "Saltmarsh Loft Boarding"
    assert owner.check_password("chalk line and plumb bob")
    assert owner.groups.get().name == "owner"


def test_a_weak_or_mistyped_password_is_asked_for_again(typed):
    typed += [
        "short",
        "chalk line and plumb bob",
        "chalk lime",
        "chalk line and plumb bob",
        "chalk line and plumb bob",
    ]
    call_command("start_firm", **OPTIONS)
    assert not typed
    assert User.objects.get().check_password("chalk line and plumb bob")


def test_a_book_has_one_firm(typed):
    Firm.objects.create(pk=1, name="Saltmarsh Loft Boarding")
    with pytest.raises(CommandError, match="already"):
        call_command("start_firm", **OPTIONS)
    assert not User.objects.exists()
