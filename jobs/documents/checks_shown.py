"""Checks as people read them: under the question each answers, with what is only worth knowing last."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from estimating.checks.subjects import Question, by_question
from estimating.checks.verdicts import Checks, Verdict
from estimating.checks.warmth.heat_records import Saving
from estimating.design.design import Design
from estimating.survey import Severity
from jobs.documents.figures_shown import ShownFigure
from jobs.documents.for_the_customer import range_in_words
from jobs.templatetags.shown import millimetres, places, two_figures


@dataclass(frozen=True, slots=True)
class ShownGroup:
    """What answers one question: its figures, what needs care, and notes."""

    name: str
    figures: tuple[ShownFigure, ...]
    cautions: tuple[Verdict, ...]
    notes: tuple[Verdict, ...]


def groups_of(checks: Checks, design: Design) -> list[ShownGroup]:
    """Return what the checks found, question by question, without the stops: they stand above all groups."""
    told = by_question(checks.verdicts)
    figures = _figures(checks, design)
    groups = (
        ShownGroup(
            question.value,
            tuple(figures.get(question, ())),
            _of(told.get(question, ()), Severity.CAUTION),
            _of(told.get(question, ()), Severity.NOTE),
        )
        for question in Question
    )
    return [group for group in groups if group.figures or group.cautions or group.notes]


def _of(verdicts: tuple[Verdict, ...], severity: Severity) -> tuple[Verdict, ...]:
    return tuple(verdict for verdict in verdicts if verdict.severity is severity)


def _figures(checks: Checks, design: Design) -> dict[Question, list[ShownFigure]]:
    return {
        Question.WARMTH: list(_warmth(checks)),
        Question.AIR: list(_air(checks, design)),
        Question.CARRY: list(_carry(checks)),
        Question.WAY_UP: list(_way_up(checks)),
    }


def _warmth(checks: Checks) -> Iterator[ShownFigure]:
    heat, ranges = checks.heat, checks.heat.ranges
    for name, figure, within in (
        ("U-value as found", heat.as_found, ranges and ranges.as_found),
        ("as proposed", heat.as_proposed, ranges and ranges.as_proposed),
        ("if the wool were squashed", heat.squashed, ranges and ranges.squashed),
    ):
        words = range_in_words(within) if within else ""
        shown = two_figures(figure.value) + (f", likely {words}" if words else "")
        yield ShownFigure(figure, name, shown, within and within.most)
    if heat.whole_ceiling:
        before, after = heat.whole_ceiling.before, heat.whole_ceiling.after
        shown = f"{two_figures(before.value)} to {two_figures(after.value)}"
        yield ShownFigure(after, "Whole ceiling, before to after", shown, before)
    if heat.saving and not heat.saving.is_nothing:
        yield from _saving(heat.saving)


def _saving(saving: Saving) -> Iterator[ShownFigure]:
    """Ranges, for a saving is an estimate: what is most likely lies between its ends."""
    least, most = saving.fuel_kwh
    yield ShownFigure(most, "Saved in a year", f"{least.value} to {most.value} kWh", least)
    if saving.pounds:
        least, most = saving.pounds
        yield ShownFigure(most, "in money", f"£{least.value} to £{most.value}", least)
    if saving.carbon_kg:
        least, most = saving.carbon_kg
        yield ShownFigure(most, "in carbon dioxide", f"{least.value} to {most.value} kg", least)


def _air(checks: Checks, design: Design) -> Iterator[ShownFigure]:
    gap = design.gap_above_insulation_mm
    yield ShownFigure(gap, "Gap above the wool", millimetres(gap.value))
    if checks.ventilation and checks.ventilation.eaves_mm2_m.value:
        each = checks.ventilation.eaves_mm2_m
        yield ShownFigure(each, "Opening to ask for at each eaves", f"{millimetres(each.value)}² a metre")


def _carry(checks: Checks) -> Iterator[ShownFigure]:
    for joists in checks.joists:
        which = f", {joists.joist_field}" if len(checks.joists) > 1 else ""
        left, used = joists.storage_kg_m2, joists.most_used
        if left is not None:
            yield ShownFigure(left, f"Storage that remains{which}", f"{left.value} kg/m²")
        share = f"{places(used.value * 100, 0)} %"
        yield ShownFigure(used, f"{joists.governing.capitalize()} used{which}", share)
    for table in checks.old_tables:
        which = f", {table.joist_field}" if len(checks.old_tables) > 1 else ""
        span, allowed = table.clear_span_mm, table.as_ceiling_mm
        yield ShownFigure(span, f"Span{which}", millimetres(span.value))
        yield ShownFigure(allowed, "the old table allows", millimetres(allowed.value))
    if checks.trusses:
        left = checks.trusses.storage_kg_m2
        yield ShownFigure(left, "Storage left on the ties", f"{left.value} kg/m²")
        for tank in checks.trusses.tanks_kn:
            yield ShownFigure(tank, tank.name.capitalize(), tank.shown)


def _way_up(checks: Checks) -> Iterator[ShownFigure]:
    yield ShownFigure(checks.headroom_mm, "Headroom at the ridge", millimetres(checks.headroom_mm.value))
    strip = checks.headroom_strip
    if strip and not strip.is_empty:
        shown = f"{millimetres(strip.from_mm.value)} to {millimetres(strip.to_mm.value)}"
        yield ShownFigure(strip.to_mm, "Headroom enough, from the front eaves", shown, strip.from_mm)
    for each in checks.access:
        if each.passes:
            shown = millimetres(each.longest_mm.value)
            yield ShownFigure(each.longest_mm, f"{each.what}: longest through the hatch", shown)
        else:
            over = max(each.too_long_mm, each.too_wide_mm, key=lambda figure: figure.value)
            yield ShownFigure(over, f"{each.what}: too large by", millimetres(over.value))
