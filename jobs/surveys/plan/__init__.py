"""The loft plan as numbers: outline, hatch, joist fields, keep-outs and deck zones, drawn or typed."""
