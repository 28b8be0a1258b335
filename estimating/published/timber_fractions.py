"""Shares of a ceiling's area that are timber.

Document: BR 443 (2019) 4.5: width / spacing + 0.01 for additional timbers, with worked figures.
Address: github.com/swwilshub/OpenUValue, apps/web/src/state/model.ts (quotes the clause and its figures).
"""

from __future__ import annotations

SOURCE = "BR 443 (2019) 4.5"

ADDITIONAL_TIMBERS = 0.01

CEILING_JOISTS_UNMEASURED = 0.1275
"""BR 443 (2019) 4.5.1, printed as 12.8 %: joists 47 mm wide at 400 mm."""

CEILING_JOISTS_2006 = 0.09
"""TGD L 2022 Example A3, read in a transcription; BR 443 (2006), from memory."""

APPROVED_DOCUMENT_L_TABLES = 0.08
"""48 mm at 600 mm with nothing added: the fraction that reproduces the tables, by own computation."""
