"""The page that all browser tests stand on: it must itself be able to fail."""

from __future__ import annotations

import pytest
from django.http import HttpResponse
from django.urls import path

from tests.conftest import open_pages

pytestmark = [pytest.mark.requires_chromium, pytest.mark.django_db(transaction=True)]

PAGE = "<!doctype html><title>Sheet</title><link rel=icon href='/static/img/favicon.svg'><h1>Sheet</h1>"


def plain(_request):
    return HttpResponse(PAGE)


def with_inline_script(_request):
    return HttpResponse(f"{PAGE}<script>document.title = 'changed'</script>")


for view in (plain, with_inline_script):
    view.login_required = False
urlpatterns = [path("plain", plain), path("inline", with_inline_script)]


@pytest.mark.urls(__name__)
def test_a_page_of_the_site_opens_by_its_path(new_page):
    page = new_page(width=390, height=844, touch=True)
    page.goto("/plain")
    assert page.title() == "Sheet"


@pytest.mark.urls(__name__)
def test_an_inline_script_is_stopped_by_the_policy_and_its_complaint_fails_the_test(browser, live_server):
    def visit() -> None:
        with open_pages(browser, live_server.url) as new_page:
            page = new_page()
            page.goto("/inline")
            assert page.title() == "Sheet"

    with pytest.raises(AssertionError, match="Content Security Policy"):
        visit()
