from __future__ import annotations

from datetime import UTC, datetime, timedelta

import pytest
import time_machine
from django.contrib.auth.models import User
from django.contrib.sessions.models import Session

MORNING = datetime(2026, 11, 25, 8, 0, tzinfo=UTC)

pytestmark = pytest.mark.django_db


@pytest.fixture
def signed_in(client):
    with time_machine.travel(MORNING, tick=False):
        client.force_login(User.objects.create_user("office"))
        client.get("/health")
    return client


def visit(client, hours: float) -> datetime:
    with time_machine.travel(MORNING + timedelta(hours=hours), tick=False):
        client.get("/health")
    return Session.objects.get().expire_date


def test_a_session_in_use_lasts_past_a_working_day(signed_in):
    assert visit(signed_in, 7) == MORNING + timedelta(hours=15)


def test_a_second_touch_within_minutes_writes_nothing(signed_in):
    assert visit(signed_in, 0.1) == MORNING + timedelta(hours=8)


def test_an_unused_session_ends_after_a_working_day(signed_in):
    visit(signed_in, 8.5)
    with time_machine.travel(MORNING + timedelta(hours=8.5), tick=False):
        assert "_auth_user_id" not in signed_in.session


def test_the_cookie_ends_with_the_browser(signed_in, settings):
    assert signed_in.cookies[settings.SESSION_COOKIE_NAME]["max-age"] == ""
