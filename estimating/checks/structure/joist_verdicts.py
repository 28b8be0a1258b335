"""What the check of ceiling joists comes to, in words for whoever stores things up there.

Nothing here is a stop. Joists that do not pass have carried their ceiling since the house was built, and what
they are was often taken and not measured: a structural engineer may measure, grade the timber and show that
they carry the deck, or say how to strengthen them. Until then the words are "before any deck is laid".
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from estimating.checks.structure.joist_record import JoistCheck
from estimating.checks.verdicts import Verdict
from estimating.plane import overlap_area_mm2
from estimating.published.eurocode_5 import SOURCE
from estimating.published.loads import LATH_AND_PLASTER_BEFORE, LIGHT_STORAGE_KG_M2
from estimating.survey import KeepOutKind, Severity, Survey

_SUBJECT = "ceiling joists"
_NO_SURVEY = "It is a check of the joists as measured and no survey of their condition."


def joist_verdicts(survey: Survey, checks: Iterable[JoistCheck]) -> Iterator[Verdict]:
    """Say what the joists of each field carry, what governs, and what was taken unmeasured.

    Args:
        survey: The loft as measured. Record. [-]
        checks: The joists checked. Sequence. [-]

    Returns:
        A verdict for each joist field, and a caution where a binder carries it. Iterator. [-]

    Source:
        EN 1995-1-1 with UK National Annex; 25 kg: BS 6399-3:1988, secondary.
    """
    for check in checks:
        severity, words = _carried(check)
        yield Verdict(
            subject=_SUBJECT,
            severity=severity,
            words=" ".join([words, *_said_aloud(survey, check), _NO_SURVEY]),
            source=SOURCE,
            figure=check.most_used if check.storage_kg_m2 is None else check.storage_kg_m2,
        )
        if check.binders:
            yield _binder_verdict(check)


def _carried(check: JoistCheck) -> tuple[Severity, str]:
    name = f"Ceiling joists ({check.joist_field})"
    governs = f"{_PLAIN[check.governing]} governs: {check.most_used.value * 100:.0f} % of what is allowed"
    if check.storage_kg_m2 is None:
        return Severity.CAUTION, (
            f"{name}: outside the limits of Eurocode 5 with the deck and a person on them, even with nothing "
            f"stored. Ask a structural engineer before any deck is laid. {governs} with light storage."
        )
    left = check.storage_kg_m2.value
    if left < LIGHT_STORAGE_KG_M2:
        stored = f", a person and only {left} kg of storage on each square metre"
        if not left:
            stored = " and a person, but nothing stored"
        return Severity.CAUTION, (
            f"{name}: by Eurocode 5 they carry the deck{stored}; {LIGHT_STORAGE_KG_M2} kg of light storage "
            f"is outside the limits. Ask a structural engineer before more is stored. {governs} with it."
        )
    more = ""
    if left > LIGHT_STORAGE_KG_M2:
        more = (
            f" By these figures {left} kg would be carried; ask a structural engineer before more than "
            f"{LIGHT_STORAGE_KG_M2} kg is stored on any square metre."
        )
    return Severity.NOTE, (
        f"{name}: within the limits of Eurocode 5; they carry the deck, a person and "
        f"{LIGHT_STORAGE_KG_M2} kg of light storage on each square metre. {governs}.{more}"
    )


_PLAIN = {
    "bending": "Bending",
    "shear": "Shear at the supports",
    "bearing": "Bearing on the supports",
    "deflection": "Deflection, how far they sag in time,",
}


def _said_aloud(survey: Survey, check: JoistCheck) -> Iterator[str]:
    if check.taken:
        yield f"Not measured, and so taken: {'; '.join(check.taken)}."
    if survey.built_year is not None and survey.built_year < LATH_AND_PLASTER_BEFORE:
        yield (
            "The ceiling is weighed as plasterboard: one of lath and plaster, as houses of that age had, "
            "weighs about twice as much."
        )
    field = survey.joist_field(check.joist_field)
    tanks = (each for each in survey.keep_outs if each.kind is KeepOutKind.TANK)
    if any(overlap_area_mm2(tank.outline, field.outline) for tank in tanks):
        yield "The tank over them is not counted: look at what it stands on."


def _binder_verdict(check: JoistCheck) -> Verdict:
    binders = "a binder" if check.binders == 1 else f"{check.binders} binders"
    return Verdict(
        subject=_SUBJECT,
        severity=Severity.CAUTION,
        words=(
            f"Ceiling joists ({check.joist_field}) rely on {binders} between their walls. Look at every "
            "hanger and fixing: where one is loose or missing, or the binder sags, the joists span further "
            "than was reckoned with. The binder itself is not computed: ask a structural engineer where in "
            "doubt."
        ),
        source="common practice, no source",
    )
