"""Corrections to U-values for air gaps and fixings, and when they are left out.

Documents: BR 443 (2019) 4.8; ISO/DIS 6946:2015 Annex F, a draft and not the published text of 2017; BS EN ISO
6946:2017 6.5.2. Read in a transcription.
Address: github.com/swwilshub/OpenUValue, corrections.ts, fasteners.ts and VERIFY.md V22 and V24.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

ADDED_BY_AIR_GAPS_W_M2K: Mapping[int, float] = MappingProxyType({0: 0.0, 1: 0.01, 2: 0.04})
"""By level; 1 is the default of BR 443 (2019) 4.8.1, and two layers of insulation are level 0."""

FIXING_FACTOR = 0.8
"""For fixings right through; shorter ones take 0.8 × their length within the insulation over its depth."""

LEAST_FIXING_CONDUCTIVITY_W_MK = 1.0

LEFT_OUT_UNDER = 0.03
"""Share of the uncorrected U-value below which all corrections together are left out."""
