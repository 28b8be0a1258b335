"""Warmth: what heat a loft's ceiling lets through, before and after, and what a year may spare.

Read it in this order: through_ceiling (plain numbers, by checks.heat), ceiling (U-values with their
working), squashed, u_value_range, whole_ceiling, saving, loft_heat (all of it for one loft, and the
verdicts), energy_rating (what an assessor will see).
"""
