from __future__ import annotations

import json
import logging
import sys

import pytest
from django.http import HttpResponse
from django.urls import ResolverMatch

from contractor_site.logs import JsonLines
from contractor_site.request_log import RequestLog


def line(**extra) -> dict:
    record = logging.makeLogRecord({"name": "eavesbook", "levelname": "INFO", "msg": "done", **extra})
    return json.loads(JsonLines().format(record))


def request_for(rf, path: str, route: str):
    request = rf.get(path)
    request.resolver_match = ResolverMatch(lambda: None, (), {}, route=route)
    return request


def test_a_record_is_one_line_of_json_with_its_figures():
    written = line(figures={"ms": 3.5})
    assert written["message"] == "done"
    assert written["ms"] == 3.5
    assert written["at"].endswith("+00:00")


def test_a_customers_link_never_reaches_the_log(rf):
    request = request_for(rf, "/q/the-secret-token/", "q/<token>/")
    written = line(msg="Internal Server Error: %s", args=(request.path,), request=request)
    assert written["message"] == "/q/<token>/"
    assert "secret" not in json.dumps(written)


def test_a_failure_says_where_and_not_what_was_typed():
    try:
        try:
            int("Mrs Example, 3 The Rise")
        except ValueError as error:
            raise RuntimeError("while reading Mrs Example") from error
    except RuntimeError:
        written = line(exc_info=sys.exc_info())
    assert written["failure"]["kind"] == "RuntimeError"
    assert written["failure"]["because"]["kind"] == "ValueError"
    assert "test_logs.py" in written["failure"]["trace"][0]
    assert "Example" not in json.dumps(written)


def test_a_request_is_logged_by_its_route_with_the_id_that_it_answers(rf, caplog):
    request = request_for(rf, "/q/the-secret-token/", "q/<token>/")
    with caplog.at_level(logging.INFO, logger="eavesbook.request"):
        RequestLog(lambda _request: HttpResponse(status=204))(request)
    (record,) = caplog.records
    assert record.getMessage() == "/q/<token>/"
    assert record.figures["status"] == 204


@pytest.mark.parametrize(("status", "lines"), [(200, 0), (404, 1)])
def test_a_file_is_no_news_but_a_miss_is(rf, caplog, status, lines):
    request = rf.get("/static/none.css")
    request.resolver_match = None
    with caplog.at_level(logging.INFO, logger="eavesbook.request"):
        RequestLog(lambda _request: HttpResponse(status=status))(request)
    assert len(caplog.records) == lines
