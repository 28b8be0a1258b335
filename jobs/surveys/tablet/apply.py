"""What each kind of change does to a survey that is locked for it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from django.contrib.auth.models import User

from jobs.surveys.models import Photograph, Survey
from jobs.surveys.services import SurveyKept, complete_survey
from jobs.surveys.tablet.body import Change, Unreadable, digest_of, read_fields, text, whole
from jobs.surveys.tablet.models import ArrivedPhotograph, Reason
from jobs.surveys.writing import Aside, Fields, write_answers, write_hazards

SAVED = "Saved in the office."
FARTHEST_MM = 1_000_000


class NotArrived(Exception):
    """A photograph is cited whose file has not wholly come yet."""

    def __init__(self, sent_sha256: str) -> None:
        super().__init__(sent_sha256)
        self.sent_sha256 = sent_sha256


@dataclass(frozen=True, slots=True)
class Applied:
    """What came of a change: words for the tablet, and (name, words) for each answer that was not taken."""

    words: str = SAVED
    told: tuple[tuple[str, str], ...] = ()
    section: str = ""
    fields: Fields = field(default_factory=dict)
    asides: tuple[Aside, ...] = ()


def apply_change(survey: Survey, change: Change, *, by: User) -> Applied:
    """Do what a change says; raises Unreadable and NotArrived."""
    if change.kind not in KINDS:
        raise Unreadable(f'It is of a kind that is not known here, "{change.kind}".')
    return KINDS[change.kind](survey, change, by)


def _answers(survey: Survey, change: Change, _by: User) -> Applied:
    section, fields = text(change.told.get("section"), most=40), read_fields(change.told)
    return _with_asides(section, fields, write_answers(survey, section, fields))


def _hazards(survey: Survey, change: Change, _by: User) -> Applied:
    fields = read_fields(change.told)
    return _with_asides("hazards", fields, write_hazards(survey, fields))


def _photograph(survey: Survey, change: Change, by: User) -> Applied:
    """Tie a photograph to the survey, or mend its words: those of the newest change win.

    It is taken whether or not the survey is closed, because it shows what was there and prices nothing.
    """
    sent_sha256 = digest_of(change.told.get("digest"))
    shows, hazard = text(change.told.get("shows")), text(change.told.get("hazard"), most=40)
    left_mm, front_mm = (_place_mm(change.told, name) for name in ("left_mm", "front_mm"))
    most = Photograph._meta.get_field("shows").max_length or 0
    photograph = _tied(survey, sent_sha256, by)
    was_known = photograph.sent_sha256 == sent_sha256
    photograph.sent_sha256 = photograph.sent_sha256 or sent_sha256
    if shows or was_known:
        photograph.shows = shows[:most]
    if hazard or was_known:
        photograph.hazard = hazard
        photograph.finding = survey.findings.filter(hazard=hazard).first() if hazard else None
    photograph.left_mm, photograph.front_mm = left_mm, front_mm
    photograph.save()
    if len(shows) <= most:
        return Applied()
    fields = {sent_sha256: ("", shows)}
    aside = Aside("photographs", sent_sha256, photograph.shows, shows, Reason.TOO_LONG)
    return _with_asides("photographs", fields, (aside,))


def _tied(survey: Survey, sent_sha256: str, by: User) -> Photograph:
    """Return the survey's photograph made from a sent file, and make it if there is none."""
    photograph = survey.photographs.filter(sent_sha256=sent_sha256).first()
    if photograph:
        return photograph
    arrived = ArrivedPhotograph.objects.filter(survey=survey, sent_sha256=sent_sha256).first()
    if not arrived:
        raise NotArrived(sent_sha256)
    # Two files may hold the same picture, and the page without scripts may have brought it before.
    return survey.photographs.filter(sha256=arrived.sha256).first() or Photograph(
        survey=survey,
        sha256=arrived.sha256,
        sent_sha256=sent_sha256,
        width=arrived.width,
        height=arrived.height,
        taken_by=by,
    )


def _complete(survey: Survey, _change: Change, _by: User) -> Applied:
    if not survey.is_open():
        return Applied("Saved in the office. The survey was complete already.")
    try:
        complete_survey(survey)
    except SurveyKept as kept:
        return Applied(f"The survey stays open. {kept}", (("complete", str(kept)),))
    return Applied("Saved in the office. The survey is complete.")


def _place_mm(told: Mapping[str, object], name: str) -> int | None:
    place = told.get(name)
    return None if place is None else whole(place, least=-FARTHEST_MM, most=FARTHEST_MM)


def _with_asides(section: str, fields: Fields, asides: tuple[Aside, ...]) -> Applied:
    count = len(asides)
    words = SAVED
    if count:
        values = "1 value is" if count == 1 else f"{count} values are"
        words = f"Saved in the office, where {values} kept aside for somebody to choose."
    told = tuple((each.name, _why(each)) for each in asides)
    return Applied(words, told, section, fields, asides)


def _why(aside: Aside) -> str:
    if aside.reason == Reason.DIFFERS:
        return f'The survey says "{aside.stands}". Both are kept, and the office chooses.'
    return f"Kept aside, because {aside.reason.label}."


KINDS: Mapping[str, Callable[[Survey, Change, User], Applied]] = {
    "answers": _answers,
    "hazards": _hazards,
    "photograph": _photograph,
    "photograph words": _photograph,
    "complete": _complete,
}
