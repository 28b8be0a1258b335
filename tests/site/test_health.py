from __future__ import annotations

import os
from datetime import timedelta

import pytest
from django.utils import timezone

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def own_data_folder(settings, tmp_path):
    settings.DATA_DIR = tmp_path
    settings.WORKER_HEARTBEAT = tmp_path / "worker_seen"


def test_anyone_may_ask_and_a_site_without_a_worker_still_serves(client):
    answer = client.get("/health")
    assert answer.status_code == 200
    assert answer.json() == {"status": "degraded", "database": "ok", "disk": "ok", "worker": "never seen"}


def test_a_worker_seen_lately_makes_all_well(client, settings):
    settings.WORKER_HEARTBEAT.touch()
    assert client.get("/health").json()["status"] == "ok"


def test_a_worker_that_went_quiet_is_said_with_its_time(client, settings):
    settings.WORKER_HEARTBEAT.touch()
    an_hour_ago = (timezone.now() - timedelta(hours=1)).timestamp()
    os.utime(settings.WORKER_HEARTBEAT, (an_hour_ago, an_hour_ago))
    answer = client.get("/health")
    assert answer.status_code == 200
    assert answer.json()["worker"].startswith("not seen since 20")


def test_a_data_folder_that_cannot_be_written_takes_the_site_out_of_service(client, settings, tmp_path):
    settings.DATA_DIR = tmp_path / "gone"
    answer = client.get("/health")
    assert answer.status_code == 503
    assert answer.json()["disk"] == "cannot be written"


def test_a_disk_that_fills_up_is_said_before_it_is_full(client, monkeypatch):
    monkeypatch.setattr("contractor_site.health.LEAST_FREE_BYTES", 1 << 60)
    assert client.get("/health").json()["disk"] == "nearly full"


def test_health_is_not_kept_by_any_cache_and_changes_nothing(client):
    assert "no-store" in client.get("/health")["Cache-Control"]
    assert client.post("/health").status_code == 405
