"""What a tablet is given to keep: pages of no survey, every file that they want, and when to fetch anew."""

from __future__ import annotations

import re

import pytest
from django.contrib.staticfiles import finders
from django.urls import reverse

from jobs.surveys.offline import version
from jobs.surveys.reading import FORMS
from jobs.surveys.sections import SECTIONS

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("firm")]

QUOTED = re.compile(r'"(/[^"]*)"')
ASKED_FOR = re.compile(r'(?:href|src)="(/static/[^"]+)"')


def kept_by(client) -> list[str]:
    """Return every address that the script keeps, as a browser reads it."""
    script = client.get(reverse("service_worker")).content.decode()
    listed = script[: script.index("const PATIENCE_MS")]
    return [address.encode().decode("unicode_escape") for address in QUOTED.findall(listed)]


def test_every_page_that_is_kept_is_there_and_holds_nobody(logged_in, surveyor, survey):
    client = logged_in(surveyor)
    pages = [address for address in kept_by(client) if not address.startswith("/static/")]
    assert len(pages) == len(SECTIONS) + 2  # and the sheet, and the list of what is on the tablet
    for address in pages:
        answer = client.get(address)
        assert answer.status_code == 200, address
        assert " data-shell" in answer.content.decode()
        assert survey.property.address not in answer.content.decode()


def test_every_file_that_a_kept_page_asks_for_is_kept(logged_in, surveyor):
    client = logged_in(surveyor)
    kept = kept_by(client)
    files = {address for address in kept if address.startswith("/static/")}
    assert all(finders.find(address.removeprefix("/static/")) for address in files)
    for address in set(kept) - files:
        assert set(ASKED_FOR.findall(client.get(address).content.decode())) <= files


@pytest.mark.parametrize("section", FORMS)
def test_a_kept_page_asks_every_question_of_its_section(logged_in, surveyor, section):
    page = logged_in(surveyor).get(reverse("kept_page", args=[section])).content.decode()
    for name in FORMS[section].base_fields:
        assert f'name="{name}"' in page


def test_the_script_is_fetched_anew_each_time_and_by_anybody(client):
    answer = client.get("/sw.js")
    assert answer.headers["Cache-Control"] == "no-cache"
    assert answer.headers["Content-Type"] == "text/javascript"


def test_a_crew_member_keeps_no_survey_pages(logged_in, crew):
    assert logged_in(crew).get(reverse("kept_page", args=["roof"])).status_code == 403


def test_a_page_tells_which_version_of_the_files_it_wants(logged_in, surveyor):
    client = logged_in(surveyor)
    told = client.get("/surveys/").headers["Pages-Version"]
    assert told == version.pages_version()
    assert f'"{told}"' in client.get("/sw.js").content.decode()


def test_another_file_makes_another_version(tmp_path, settings):
    settings.ROOT, settings.DEBUG = tmp_path, True
    before = version.pages_version()
    (tmp_path / "static").mkdir()
    (tmp_path / "static" / "a.css").write_text("a")
    after = version.pages_version()
    (tmp_path / "static" / "a.css").write_text("b")
    assert len({before, after, version.pages_version()}) == 3
