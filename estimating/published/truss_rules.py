"""What trussed rafters are designed for, and how an opening between them may be trimmed.

Documents: BS 5268-3:2006 clause 6.4 (storage on ceiling ties), from memory, 25 kg/m² read at a social
landlord's page; BS 5268-3 clause 7.5 (tanks) as quoted by a fabricator; BS 5268-3:2002 clause 7.6 (openings)
as in C. Mindham, Roof Construction and Loft Conversion, read at northernarchitecture.us.
"""

from __future__ import annotations

STORAGE_SOURCE = "BS 5268-3:2006 6.4, from memory; 25 kg/m² as read at a social landlord's page"
TANK_SOURCE = "BS 5268-3 7.5, as quoted by a fabricator of trussed rafters"
OPENING_SOURCE = "BS 5268-3:2002 7.6, by C. Mindham, Roof Construction and Loft Conversion"
NEVER_CUT_SOURCE = "C. Mindham, Roof Construction and Loft Conversion, as read at northernarchitecture.us"
DESIGNER_SOURCE = "PD 6693-1, list of what a designer is told, by NHBC Standards 2020 7.2.2"

STORAGE_KN_M2 = 0.25
"""On the ceiling tie for the long term; deck and thicker insulation are counted against it."""
GREATEST_NODE_LOAD_KN = 0.45
"""Of a tank on each node of a ceiling tie that carries it."""
BAYS_OF_A_TIE = 3
"""A Fink truss meets its tie at the thirds of the span."""
