"""An invented firm with three invented lofts, made through the same services as a real one's."""

from jobs.demo.build import DemoSummary, build_demo

__all__ = ["DemoSummary", "build_demo"]
