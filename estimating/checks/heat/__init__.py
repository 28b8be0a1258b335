"""Heat through the ceiling: U-values, the thickness a target needs, squashed wool, and what is saved."""

from estimating.checks.heat.build_up import BridgedLayer, Ceiling, Layer, Resistance
from estimating.checks.heat.u_values import UValue, u_value

__all__ = ["BridgedLayer", "Ceiling", "Layer", "Resistance", "UValue", "u_value"]
