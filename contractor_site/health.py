"""Tell a monitor whether the site can do its work: database, disk and worker."""

from __future__ import annotations

import logging
import shutil
import tempfile
from datetime import UTC, datetime, timedelta
from pathlib import Path

from django.conf import settings
from django.contrib.auth.decorators import login_not_required
from django.db import DatabaseError, connection
from django.http import HttpRequest, JsonResponse
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_safe

LEAST_FREE_BYTES = 200 * 1024 * 1024
"""A day of photographs and papers, so that someone hears of it before the disk is full."""

WORKER_LATE_AFTER = timedelta(minutes=5)

logger = logging.getLogger("eavesbook.health")


@login_not_required
@never_cache
@require_safe
def health(request: HttpRequest) -> JsonResponse:
    """Answer 200 while the site can serve. A late worker is said but does not take the site down."""
    parts = {
        "database": _database(),
        "disk": _disk(settings.DATA_DIR),
        "worker": _worker(settings.WORKER_HEARTBEAT),
    }
    can_serve = parts["database"] == parts["disk"] == "ok"
    words = "ok" if can_serve and parts["worker"] == "ok" else "degraded" if can_serve else "failing"
    return JsonResponse({"status": words, **parts}, status=200 if can_serve else 503)


def _database() -> str:
    try:
        with connection.cursor() as cursor:
            cursor.execute("SELECT 1 FROM django_migrations LIMIT 1")
            return "ok" if cursor.fetchone() else "empty"
    except DatabaseError:
        logger.exception("health: database")
        return "no answer"


def _disk(folder: Path) -> str:
    try:
        with tempfile.TemporaryFile(dir=folder) as probe:
            probe.write(b"eavesbook")
            probe.flush()
        return "ok" if shutil.disk_usage(folder).free >= LEAST_FREE_BYTES else "nearly full"
    except OSError:
        logger.exception("health: disk")
        return "cannot be written"


def _worker(heartbeat: Path) -> str:
    try:
        seen = datetime.fromtimestamp(heartbeat.stat().st_mtime, UTC)
    except FileNotFoundError:
        return "never seen"
    late = datetime.now(UTC) - seen > WORKER_LATE_AFTER
    return f"not seen since {seen.isoformat(timespec='seconds')}" if late else "ok"
