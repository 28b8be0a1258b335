"""What waits for whom: every open end of the firm's work, as far as this person may see and do it."""

from __future__ import annotations

from datetime import date

from django.contrib.auth.models import User

from jobs.today.groups import Group
from jobs.today.offers import mail_to_see_to, questions_to_answer, quotes_to_follow_up, revisions_to_move
from jobs.today.upkeep import particulars_to_mend, prices_to_check
from jobs.today.visits import stops_to_clear, surveys_to_finish, values_to_choose, visits_to_make
from jobs.today.work import jobs_to_move, orders_to_send


def waiting_for(person: User, *, today: date) -> list[Group]:
    """Return what waits for a person, in the order a job is lived; nothing that waits for nobody."""
    may = person.has_perm
    groups: list[Group] = []
    if may("jobs.change_enquiry") or may("jobs.add_survey"):
        groups += visits_to_make(person)
    if may("jobs.add_survey"):
        groups += surveys_to_finish(person)
    if may("jobs.change_survey"):
        groups += values_to_choose(person)
    if may("jobs.add_clearance"):
        groups += stops_to_clear()
    if may("jobs.change_customerquestion"):
        groups += questions_to_answer()
    if may("jobs.change_outgoingmail"):
        groups += mail_to_see_to()
    if may("jobs.issue_quote"):
        groups += revisions_to_move(person, today)
    if may("jobs.change_quote"):
        groups += quotes_to_follow_up(today)
    if may("jobs.change_materialsorder"):
        groups += orders_to_send()
    if may("jobs.report_job"):
        groups += jobs_to_move(person, today)
    if may("jobs.change_edition"):
        groups += prices_to_check(today)
    if may("jobs.change_firm"):
        groups += particulars_to_mend(today)
    return [group for group in groups if group.items]
