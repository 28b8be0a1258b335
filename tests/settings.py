"""The site's own settings, over a data folder that ends with the tests."""

from __future__ import annotations

import atexit
import os
import shutil
import tempfile

_folder = tempfile.mkdtemp(prefix="eavesbook-tests-")
atexit.register(shutil.rmtree, _folder, ignore_errors=True)
for name in [
    name for name in os.environ if name.startswith("EAVESBOOK_") or name in ("BASE_URL", "EMAIL_URL")
]:
    del os.environ[name]
os.environ["EAVESBOOK_DATA_DIR"] = _folder

from contractor_site.settings import *  # noqa: E402, F403
from contractor_site.settings import DATABASES  # noqa: E402

PASSWORD_HASHERS = ["django.contrib.auth.hashers.MD5PasswordHasher"]  # so that a log-in takes no time
DATABASES["default"]["OPTIONS"].pop("pool", None)  # a test database cannot be dropped under a pool
if "sqlite" in DATABASES["default"]["ENGINE"]:
    # A file, as in an installation: in memory, the threads of a live server share one connection's locks.
    DATABASES["default"]["TEST"] = {"NAME": f"{_folder}/tests.sqlite3"}
EMAIL_BACKEND = "django.core.mail.backends.locmem.EmailBackend"
