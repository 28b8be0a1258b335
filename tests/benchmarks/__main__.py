"""Print how long the work takes on this machine, over a data folder and a database that end with the run.

python -m tests.benchmarks
python -m tests.benchmarks quotes [COUNT]
python -m tests.benchmarks layouts [--apart] [--each] [--lofts N]
"""

from __future__ import annotations

import logging
import os
import platform
import sys
from datetime import date

import django

from tests.benchmarks.measuring import in_columns, in_own_process
from tests.benchmarks.quotes_list import MANY, quotes_list


def main() -> None:
    """Measure and print, one table after the other."""
    os.environ.pop("DATABASE_URL", None)  # never the developer's: the settings then name one in the folder
    os.environ["DJANGO_SETTINGS_MODULE"] = "tests.settings"
    django.setup()
    logging.disable(logging.WARNING)
    # What is measured imports models, which need the settings above.
    from tests.benchmarks.checks import checks  # noqa: PLC0415
    from tests.benchmarks.core import core  # noqa: PLC0415
    from tests.benchmarks.lofts import make_all  # noqa: PLC0415
    from tests.benchmarks.pages import pages  # noqa: PLC0415
    from tests.benchmarks.papers import memory, papers  # noqa: PLC0415
    from tests.benchmarks.prices import prices  # noqa: PLC0415

    print(f"{os.cpu_count()} cores, Python {platform.python_version()}, {date.today():%-d %B %Y}")
    made = in_own_process(make_all)
    for part in (core, checks, prices, pages, papers, memory):
        print(f"\n{in_columns(part(made))}", flush=True)
    print(f"\n{in_columns(quotes_list())}", flush=True)


if __name__ == "__main__":
    if sys.argv[1:2] == ["layouts"]:  # pure computation: no settings, no database
        from tests.benchmarks.layouts.report import report

        sys.exit(report(sys.argv[2:]))
    if sys.argv[1:2] == ["quotes"]:
        print(in_columns(quotes_list(int(sys.argv[2]) if sys.argv[2:] else MANY)))
        sys.exit()
    main()
