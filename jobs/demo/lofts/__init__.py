"""Four invented lofts, as a surveyor would type them."""

from jobs.demo.lofts.bungalow import BUNGALOW
from jobs.demo.lofts.cut_roof import CUT_ROOF
from jobs.demo.lofts.held import HELD
from jobs.demo.lofts.loft import DemoLoft
from jobs.demo.lofts.trussed import TRUSSED

LOFTS = (TRUSSED, CUT_ROOF, BUNGALOW, HELD)

__all__ = ["BUNGALOW", "CUT_ROOF", "HELD", "LOFTS", "TRUSSED", "DemoLoft"]
