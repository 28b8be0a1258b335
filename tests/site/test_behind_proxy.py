from __future__ import annotations

import pytest
from django.http import HttpResponse

from contractor_site.behind_proxy import BehindProxy


@pytest.fixture
def address_seen(settings, rf):
    settings.BEHIND_HTTPS_PROXY = True
    site = BehindProxy(lambda request: HttpResponse(request.META["REMOTE_ADDR"]))
    return lambda **headers: site(rf.get("/", headers=headers))


def test_the_visitor_is_the_last_address_that_the_proxy_saw(address_seen):
    answer = address_seen(**{"x-forwarded-proto": "https", "x-forwarded-for": "198.51.100.9, 203.0.113.7"})
    assert answer.content == b"203.0.113.7"


def test_a_proxy_that_says_nothing_of_https_is_told_so_rather_than_sent_round_for_ever(address_seen):
    answer = address_seen()
    assert answer.status_code == 400
    assert b"X-Forwarded-Proto" in answer.content


def test_without_https_nobody_may_name_another_address(settings, rf):
    settings.BEHIND_HTTPS_PROXY = False
    site = BehindProxy(lambda request: HttpResponse(request.META["REMOTE_ADDR"]))
    answer = site(rf.get("/", headers={"x-forwarded-for": "203.0.113.7"}))
    assert answer.content == b"127.0.0.1"
