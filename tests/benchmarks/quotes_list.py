"""The list of quotes, its search, and the other rooms over very many quotes, on both databases.

Django connects to one database a process, so each is measured by a program of its own, which prints its
figures as JSON: `python -m tests.benchmarks.quotes_list COUNT`, with DATABASE_URL for PostgreSQL.
"""

from __future__ import annotations

import json
import logging
import os
import subprocess
import sys

import django

from tests.benchmarks.measuring import Table, ms, timed
from tests.private_postgresql import private_cluster, server_programs

MANY = 100_000
LIMIT_MS = 150
MOST_QUERIES = 10
PAGES = {
    "List, all": "",
    "List, the office's turn": "?turn=office",
    "List, the customer's turn": "?turn=customer",
    "List, lapsed": "?state=lapsed",
    "List, in the middle": "?after={middle}",
    "Search, a name": "?q=pembury",
    "Search, two names": "?q=llyr pembury",
    "Search, a whole postcode": "?q=wx4 7",
    "Search, a telephone number": "?q=0161 490 12",
    "Search, the last of a number": "?q=01234",
    "Search, a year long past": "?q=2019",
    "Search, what begins every postcode": "?q=wx",
    "Search, three words of everybody": "?q=wex wx wexcombe",
    "Search, nothing to be found": "?q=zzz",
}
"""The list of quotes: what is asked of it."""
ROOMS = {
    "Today": "/",
    "Surveys, the list": "/surveys/",
    "Orders, the list": "/orders/",
    "Customers, a name": "/customers/?q=pembury",
    "Customers, a whole postcode": "/customers/?q=wx4 7ab",
    "Everything, a name": "/search/?q=pembury",
    "Everything, a street": "/search/?q=17 forge hill",
    "Everything, half a postcode": "/search/?q=wx4 7",
    "Everything, a telephone number": "/search/?q=0161 490 12",
    "Everything, the last of a number": "/search/?q=01234",
    "Everything, what begins every town": "/search/?q=we",
    "Everything, nothing to be found": "/search/?q=zzz",
}
"""The other rooms in which ten years of quotes lie, by their addresses."""
Figures = dict[str, tuple[float, int]]


def quotes_list(count: int = MANY) -> Table:
    """Measure both databases, one after the other; each is filled first, which takes minutes."""
    sqlite = _measured_in_own_program(count, None)
    postgresql: Figures = {}
    if server_programs() is not None:
        with private_cluster() as url:
            postgresql = _measured_in_own_program(count, url)
    heads = (f"{count:,} quotes".replace(",", " "), "SQLite", "queries", "PostgreSQL", "queries", "limit", "")
    rows = [
        (
            name,
            *_shown(sqlite, name),
            *_shown(postgresql, name),
            ms(LIMIT_MS),
            f"{MOST_QUERIES} queries" if name in PAGES else "",
        )
        for name in [*PAGES, *ROOMS]
    ]
    return Table(heads, rows)


def _shown(figures: Figures, name: str) -> tuple[str, str]:
    if name not in figures:
        return "not here", ""
    median_ms, queries = figures[name]
    return ms(median_ms), str(queries)


def _measured_in_own_program(count: int, url: str | None) -> Figures:
    environment = {name: value for name, value in os.environ.items() if name != "DATABASE_URL"}
    command = [sys.executable, "-m", "tests.benchmarks.quotes_list", str(count)]
    environment |= {"DATABASE_URL": url} if url else {}
    answer = subprocess.run(command, env=environment, check=True, stdout=subprocess.PIPE)
    return {name: (figures[0], figures[1]) for name, figures in json.loads(answer.stdout).items()}


def measure(count: int) -> Figures:
    """Fill the database of this process and measure each page, warm, as the office that opens it."""
    # What is measured imports models, which need the settings.
    from django.contrib.auth.models import Group, User  # noqa: PLC0415
    from django.core.management import call_command  # noqa: PLC0415
    from django.db import connection  # noqa: PLC0415
    from django.test import Client  # noqa: PLC0415
    from django.test.utils import CaptureQueriesContext  # noqa: PLC0415
    from django.urls import reverse  # noqa: PLC0415

    from jobs.quotes.models import Quote  # noqa: PLC0415
    from tests.benchmarks.many_quotes import fill  # noqa: PLC0415

    call_command("migrate", verbosity=0, interactive=False)
    office = User.objects.create_user("office")
    office.groups.add(Group.objects.get(name="office"))
    fill(count, office)
    middle = Quote.objects.order_by("pk")[count // 2].pk
    client = Client(headers={"host": "127.0.0.1"})
    client.force_login(office)
    figures: Figures = {}
    addresses = {name: reverse("quotes") + asked.format(middle=middle) for name, asked in PAGES.items()}
    for name, address in (addresses | ROOMS).items():

        def ask(address: str = address) -> None:
            answer = client.get(address)
            assert answer.status_code == 200, f"{address} answered {answer.status_code}"

        timing = timed(ask)
        with CaptureQueriesContext(connection) as queries:
            ask()
        figures[name] = (timing.median_ms, len(queries))
    return figures


if __name__ == "__main__":
    os.environ["DJANGO_SETTINGS_MODULE"] = "tests.settings"
    django.setup()
    logging.disable(logging.WARNING)
    print(json.dumps(measure(int(sys.argv[1]))))
