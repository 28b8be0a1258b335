from __future__ import annotations

from django import template

from jobs.customers.phones import shown_phone

register = template.Library()

register.filter("shown_phone", shown_phone)
