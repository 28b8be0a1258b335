from __future__ import annotations

import pytest

pytestmark = pytest.mark.django_db


def test_a_page_may_load_nothing_but_the_sites_own_files(client):
    policy = client.get("/health")["Content-Security-Policy"]
    sources = dict(part.strip().split(" ", 1) for part in policy.split(";") if part.strip())
    assert sources.pop("default-src") == sources.pop("base-uri") == sources.pop("frame-ancestors") == "'none'"
    assert sources.pop("img-src") == "'self' data: blob:"
    assert set(sources.values()) == {"'self'"}


def test_the_referrer_stays_for_the_site_itself_so_that_forms_can_be_checked(client):
    answer = client.get("/health")
    assert answer["Referrer-Policy"] == "same-origin"
    assert answer["X-Frame-Options"] == "DENY"
    assert answer["X-Content-Type-Options"] == "nosniff"


def test_every_answer_carries_the_id_that_its_log_lines_carry(client):
    first, second = client.get("/health"), client.get("/health")
    assert len(first["X-Request-ID"]) == 12
    assert first["X-Request-ID"] != second["X-Request-ID"]


def test_the_sites_files_are_served_by_the_site(client):
    answer = client.get("/static/css/tokens.css")
    assert answer.status_code == 200
    assert b"--" in b"".join(answer)


@pytest.mark.parametrize(
    "path", ["/papers/", "/photographs/", "/secret_key", "/static/../.eavesbook/secret_key"]
)
def test_nothing_of_the_data_folder_has_an_address(client, settings, path):
    settings.PAPERS_DIR.mkdir(parents=True, exist_ok=True)
    assert client.get(path).status_code in (302, 404)
