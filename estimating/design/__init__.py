"""Where everything goes: zones, rows and boards, pedestals, insulation, access."""
