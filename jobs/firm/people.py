"""Who may do what: the four roles of a small firm, as groups."""

from __future__ import annotations

READ = ("view",)
WRITE = ("view", "add", "change")

_BOOK = ("edition", "editionproduct", "editionlabourrate", "editionconditionrate", "editioncharge")


def _allow(words: tuple[str, ...], *models: str) -> frozenset[str]:
    return frozenset(f"{word}_{model}" for word in words for model in models)


_FIELD = _allow(READ, "customer", "property", "enquiry") | _allow(READ, "survey", "finding", "photograph")
_SURVEYOR = (
    _FIELD
    | _allow(WRITE, "survey", "finding", "photograph")
    | _allow(READ, "quote", "revision", "job", "clearance")
)
_CREW = _allow(READ, "job", "survey", "finding", "photograph", "clearance") | {"report_job"}
_OFFICE = (
    _SURVEYOR
    | _allow(WRITE, "customer", "property", "enquiry", "clearance", "quote", "revision", "customerquestion")
    | _allow(WRITE, "materialsorder", "orderline", "storedboard", "job", "outgoingmail")
    | _allow(READ, *_BOOK)
    | {"see_costs", "issue_quote", "book_job", "report_job"}
)
_OWNER = (
    _OFFICE
    | _allow(WRITE, *_BOOK)
    | _allow(WRITE, "firm", "nationtarget", "fuelprice")
    | {"add_user", "change_user", "view_user", "approve_quote", "choose_vat_class"}
)

ROLES: dict[str, frozenset[str]] = {
    "owner": _OWNER,
    "office": _OFFICE,
    "surveyor": _SURVEYOR,
    "crew": _CREW,
}
"""Permission codenames of each role; `write_roles` keeps the groups equal to this."""
