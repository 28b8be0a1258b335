"""The materials order: what one supplier is asked to bring, where and when."""

from __future__ import annotations

from typing import Any

from django.utils import timezone

from jobs.documents.render import pdf_from_template
from jobs.firm.as_printed import firm_as_printed
from jobs.firm.models import Firm
from jobs.orders.models import MaterialsOrder


def materials_order_pdf(order: MaterialsOrder) -> bytes:
    """Return the order as a paper."""
    return pdf_from_template("documents/materials_order.html", materials_order_context(order))


def materials_order_context(order: MaterialsOrder) -> dict[str, Any]:
    """Return what a materials order says; costs are the supplier's, without VAT."""
    maker = order.sent_by or order.made_by
    return {
        "firm": firm_as_printed(Firm.ours(), on=timezone.localdate()),
        "order": order,
        "lines": list(order.lines.all()),
        "cost": order.cost,
        "weight_kg": order.weight_kg,
        "place": order.job.revision.quote.property,
        "dated": timezone.localdate(order.sent_at) if order.sent_at else timezone.localdate(),
        "made_by": (maker.get_full_name() or maker.username) if maker else "",
    }
