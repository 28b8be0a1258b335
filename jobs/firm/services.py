"""Keep the people of the firm and who they are."""

from __future__ import annotations

from django.contrib.auth.models import Group, User
from django.db import transaction


class LastOwner(Exception):
    """The book would be left without anyone who may mend it."""


@transaction.atomic
def add_person(*, username: str, full_name: str, role: str, password: str) -> User:
    """Add a person with one role."""
    first, _, last = full_name.partition(" ")
    person = User.objects.create_user(username, password=password, first_name=first, last_name=last)
    person.groups.set([Group.objects.get(name=role)])
    return person


@transaction.atomic
def change_person(  # noqa: PLR0913 - one for each box of the form
    person: User, *, username: str, full_name: str, role: str, password: str, may_log_in: bool
) -> None:
    """Change a person's name, role, password or right to log in; the last owner stays an owner."""
    owners = User.objects.select_for_update().filter(groups__name="owner", is_active=True)
    others = [owner for owner in owners if owner.pk != person.pk]
    if not others and (role != "owner" or not may_log_in):
        raise LastOwner("At least one person who may log in must be an owner.")
    person.username = username
    person.first_name, _, person.last_name = full_name.partition(" ")
    person.is_active = may_log_in
    if password:
        person.set_password(password)
    person.save()
    person.groups.set([Group.objects.get(name=role)])
