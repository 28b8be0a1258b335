#!/usr/bin/env python3
"""Run Eavesbook: `python3 manage.py demo`, `python3 manage.py test`, or any command of the site."""

import sys

# Said before any import that an older Python could not read, in words that it can.
if sys.version_info < (3, 11):  # noqa: UP036
    sys.exit("Eavesbook needs Python 3.11 or newer; this is %d.%d." % sys.version_info[:2])  # noqa: UP031

from contractor_site.first_run.start import start

if __name__ == "__main__":
    sys.exit(start(sys.argv))
