from __future__ import annotations

import pytest
from django.urls import reverse

pytestmark = pytest.mark.django_db


@pytest.fixture
def acts(put_in, job) -> list[str]:
    return [
        reverse("store_take_out", args=[put_in().pk]),
        reverse("job_take_boards", args=[job.number]),
        reverse("job_keep_offcuts", args=[job.number]),
    ]


def test_nobody_reaches_the_store_without_logging_in(client, acts):
    for address in (reverse("store"), *acts):
        assert client.post(address).url.startswith("/log-in/")


@pytest.mark.parametrize("role", ["crew", "surveyor"])
def test_crew_and_surveyor_keep_no_store(request, logged_in, acts, role):
    client = logged_in(request.getfixturevalue(role))
    assert client.get(reverse("store")).status_code == 403
    assert [client.post(address).status_code for address in acts] == [403] * len(acts)


@pytest.mark.parametrize("role", ["office", "owner"])
def test_office_and_owner_keep_the_store(request, logged_in, edition, acts, role):
    client = logged_in(request.getfixturevalue(role))
    assert client.get(reverse("store")).status_code == 200
    assert [client.get(address).status_code for address in acts] == [405] * len(acts)
    assert [client.post(address, {"count": "1"}).status_code for address in acts] == [302] * len(acts)
