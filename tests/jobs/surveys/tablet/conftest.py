from __future__ import annotations

import pytest
from django.test import Client


@pytest.fixture(autouse=True)
def folders(settings, tmp_path):
    settings.PHOTOGRAPHS_DIR = tmp_path / "photographs"
    settings.ARRIVING_DIR = tmp_path / "arriving"


@pytest.fixture
def tablet(surveyor, logged_in) -> Client:
    """Return the browser of a tablet on which the surveyor is signed in."""
    return logged_in(surveyor)
