from __future__ import annotations

import pytest
from django.conf import settings as site_settings
from django.middleware.csrf import CsrfViewMiddleware
from django.test import RequestFactory, override_settings

from contractor_site.csrf_refusal import refused

OURS = "https://eavesbook.example.com"

behind_proxy = override_settings(
    BASE_URL=OURS,
    CSRF_TRUSTED_ORIGINS=[OURS],
    CSRF_COOKIE_SECURE=True,
    ALLOWED_HOSTS=["eavesbook.example.com", "127.0.0.1"],
    SECURE_PROXY_SSL_HEADER=("HTTP_X_FORWARDED_PROTO", "https"),
)


def post(**headers: str):
    """Send a form through Django's own check and return what came back; None when it was let through."""
    cookie = headers.pop("cookie", f"{site_settings.CSRF_COOKIE_NAME}={'a' * 32}")
    headers = {"host": "eavesbook.example.com", "x-forwarded-proto": "https", **headers}
    sent = {name: value for name, value in headers.items() if value}
    request = RequestFactory().post(
        "/", {"csrfmiddlewaretoken": "a" * 32}, headers={**sent, "cookie": cookie}
    )
    middleware = CsrfViewMiddleware(lambda request: None)
    middleware.process_request(request)
    return middleware.process_view(request, lambda request: None, (), {})


def words(answer) -> str:
    assert answer.status_code == 403
    return answer.content.decode()


@behind_proxy
@pytest.mark.parametrize("host", ["eavesbook.example.com", "127.0.0.1:8000"])
def test_a_proxy_that_forwards_no_host_or_scheme_still_gets_forms_through(host):
    assert post(host=host, origin=OURS) is None
    assert post(host=host, origin=OURS, **{"x-forwarded-proto": ""}) is None


@behind_proxy
def test_another_address_of_the_site_is_answered_with_the_setting_to_change():
    page = words(post(origin="https://book.example.com"))
    assert "<code>Origin</code>" in page
    assert "BASE_URL=https://book.example.com" in page


@behind_proxy
def test_a_null_origin_is_traced_to_no_referrer():
    page = words(post(origin="null"))
    assert "<code>Origin</code>" in page
    assert "no-referrer" in page


@behind_proxy
def test_a_missing_referer_is_named_when_there_is_no_origin():
    page = words(post())
    assert "<code>Referer</code>" in page
    assert "must not remove Origin or Referer" in page


@behind_proxy
def test_a_referer_of_another_host_is_answered_with_the_setting_to_change():
    page = words(post(referer="https://book.example.com/quotes/7"))
    assert "BASE_URL=https://book.example.com" in page
    assert "quotes/7" not in page


@behind_proxy
def test_a_missing_cookie_over_plain_http_is_traced_to_the_forwarded_scheme():
    page = words(post(cookie="", origin=OURS, **{"x-forwarded-proto": "http"}))
    assert "<code>X-Forwarded-Proto</code>" in page


@behind_proxy
def test_a_missing_cookie_over_https_is_the_browsers():
    page = words(post(cookie="", origin=OURS))
    assert "<code>Cookie</code>" in page


@behind_proxy
def test_a_token_of_another_log_in_asks_to_load_the_page_again():
    page = words(post(cookie=f"{site_settings.CSRF_COOKIE_NAME}={'b' * 32}", origin=OURS))
    assert "Load the page again" in page


def test_what_came_is_shown_as_text_never_as_markup(rf):
    answer = refused(rf.post("/", headers={"origin": "https://<script>"}))
    assert "<script>" not in answer.content.decode().split("<main", 1)[1]
