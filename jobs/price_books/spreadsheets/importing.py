"""Keep a file that was sent, look at what it would do, and take it all or nothing."""

from __future__ import annotations

from datetime import datetime

from django.contrib.auth.models import User
from django.db import transaction
from django.utils import timezone

from jobs.price_books.import_models import ColumnMapping, PriceImport
from jobs.price_books.models import Edition, EditionProduct
from jobs.price_books.row_values import EVERY_PRODUCT
from jobs.price_books.services import lock_open
from jobs.price_books.spreadsheets.columns import plain_header, remembered_columns
from jobs.price_books.spreadsheets.plan import Plan, plan_import
from jobs.price_books.spreadsheets.reading import read_table

_SAVED = [name for name in EVERY_PRODUCT if name not in ("code", "role")] + ["dimensions"]


class PlanChanged(Exception):
    """What would be taken is not what was shown."""


def keep_import(edition: Edition, *, name: str, content: bytes, by: User) -> PriceImport:
    """Keep a file until it is taken or a day has passed; raises CannotRead."""
    read_table(name, content)
    forget_ended_imports(timezone.now())
    return PriceImport.objects.create(edition=edition, name=name[-120:], content=content, by=by)


def plan_of(kept: PriceImport) -> Plan:
    """Return what a kept file would do to its edition as it stands now."""
    return plan_import(kept.edition, read_table(kept.name, bytes(kept.content)), remembered_columns())


@transaction.atomic
def remember_columns(meanings: dict[str, str | None]) -> None:
    """Remember what the firm's own headings mean; one without a meaning is forgotten."""
    for header, ours in meanings.items():
        theirs = plain_header(header)
        if ours is None:
            ColumnMapping.objects.filter(theirs=theirs).delete()
        else:
            ColumnMapping.objects.update_or_create(theirs=theirs, defaults={"ours": ours})


@transaction.atomic
def take_import(kept: PriceImport, *, shown: str) -> Plan:
    """Write what was shown into the open edition, all of it or nothing; raises PlanChanged, EditionClosed."""
    lock_open(kept.edition)
    plan = plan_of(kept)
    if not plan.may_be_taken or plan.digest != shown:
        raise PlanChanged("The edition or the columns were changed meanwhile: look at it again.")
    EditionProduct.objects.bulk_create([row.product for row in plan.added if row.product], batch_size=500)
    for row in plan.changed:
        if row.product:
            row.product.save(update_fields=_SAVED)
    kept.delete()
    return plan


def forget_ended_imports(now: datetime) -> None:
    """Throw away files whose day has passed."""
    PriceImport.objects.filter(ends_at__lt=now).delete()
