"""Give every request an id, and write one line when it is done."""

from __future__ import annotations

import logging
import secrets
import time
from collections.abc import Callable

from django.http import HttpRequest, HttpResponse

from contractor_site.logs import request_id, route_of

logger = logging.getLogger("eavesbook.request")


class RequestLog:
    """The outermost middleware, so that the refusals of the others are logged too."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        token = request_id.set(secrets.token_hex(6))
        began = time.perf_counter()
        try:
            response = self.get_response(request)
            response["X-Request-ID"] = request_id.get()
            if request.resolver_match or response.status_code >= 400:  # files of /static/ are not news
                milliseconds = round((time.perf_counter() - began) * 1000, 1)
                figures = {"method": request.method, "status": response.status_code, "ms": milliseconds}
                logger.info(route_of(request), extra={"figures": figures})
            return response
        finally:
            request_id.reset(token)
